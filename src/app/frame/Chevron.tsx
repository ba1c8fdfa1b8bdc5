/** Says that a button opens a list. */
export function Chevron() {
  return (
    <svg className="chevron" viewBox="0 0 12 8" aria-hidden="true">
      <path d="m1 1.5 5 5 5-5" />
    </svg>
  );
}

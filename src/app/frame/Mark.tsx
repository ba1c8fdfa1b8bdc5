/** The mark: two wheels on a crossed-up axle. */
export function Mark() {
  return (
    <svg className="mark" viewBox="0 0 32 22" aria-hidden="true">
      <path d="M5 14 27 7" strokeWidth="3" />
      <path d="M4.5 9.5v9M27.5 3.5v9" strokeWidth="5" />
      <circle cx="16" cy="10.5" r="3.6" />
    </svg>
  );
}

/** The mark: two wheels on a crossed-up axle. */
export function Mark() {
  return (
    <svg className="mark" viewBox="0 0 30 22" aria-hidden="true">
      <path d="M3.2 13.4 26.8 8.6" strokeWidth="2.8" />
      <path d="M3.2 8.6v9.6M26.8 3.6v9.6" strokeWidth="6" />
      <circle cx="15" cy="11" r="3.6" />
    </svg>
  );
}

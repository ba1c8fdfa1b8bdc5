/** The one sentence that leads. */
export function Headline() {
  return <div className="headline" />;
}

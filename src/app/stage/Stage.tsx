/** The middle: the leading sentence over the axle. */
export function Stage() {
  return <section className="stage" aria-label="The axle" />;
}

export function Here() {
  return <section className="here" aria-label="Numbers here" />;
}

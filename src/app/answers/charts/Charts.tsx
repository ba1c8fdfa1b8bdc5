export default function Charts() {
  return <div />;
}

export default function Parts() {
  return <div />;
}

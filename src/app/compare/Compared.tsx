export default function Compared() {
  return <div className="answers" />;
}

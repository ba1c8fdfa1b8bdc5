export function FindingDetail({ id }: { id: string; finding: unknown; facts: unknown }) {
  return <div id={id} />;
}

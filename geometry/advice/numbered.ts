/** Names that are there more than once told apart: 'lower link', 'lower link (2)'. */
export function numbered(names: readonly string[]): string[] {
  const counts = new Map<string, number>();
  return names.map(name => {
    const count = (counts.get(name) ?? 0) + 1;
    counts.set(name, count);
    return count === 1 ? name : `${name} (${count})`;
  });
}

/** 'long-arm-front.axlewalk.json' → 'Long arm front'. */
export function titleOf(fileName: string): string {
  const words = fileName.replace(/\.axlewalk\.json$/, '').replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

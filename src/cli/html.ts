/** Text and tables for a page. */

/** Text with nothing in it that a page would take for markup; a whole number stays with its fraction and its unit. */
export const escaped = (text: string): string =>
  text
    .replace(/[&<>"']/g, character => `&#${character.charCodeAt(0)};`)
    .replace(/(\d) (?=\d+\/\d|in\b|mm\b|%|ft\b|lbf\b)/g, '$1\u00a0');

/** A table, its first column the name of each row; nothing where there is no row. */
export function htmlTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return '';
  const headings = head.map(cell => `<th scope="col">${escaped(cell)}</th>`).join('');
  const body = rows.map(([name = '', ...cells]) => {
    const others = cells.map(cell => `<td>${escaped(cell)}</td>`).join('');
    return `<tr><th scope="row">${escaped(name)}</th>${others}</tr>`;
  });
  return `<div class="table"><table><thead><tr>${headings}</tr></thead><tbody>${body.join('\n')}</tbody></table></div>`;
}

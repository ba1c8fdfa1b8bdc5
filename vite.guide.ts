/**
 * The guide, docs/guide, rendered while the page is built: `import pages from 'virtual:guide'`. Plain HTML without
 * styles or scripts of its own; drawings stand in it as SVG, so that the page can give them its colors.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Marked } from 'marked';
import type { Plugin } from 'vite';

const FOLDER = fileURLToPath(new URL('./docs/guide', import.meta.url));

export interface GuidePage {
  /** File name without its ending; the first page is the list of the others. */
  name: string;
  title: string;
  html: string;
}

/** Every page, in the order in which the first one lists them. */
export function guidePages(): GuidePage[] {
  const first = textOf('README.md');
  const listed = [...first.matchAll(/^\d+\. \[[^\]]*\]\(([\w-]+)\.md\)/gm)].map(
    ([, name]) => name ?? '',
  );
  const there = readdirSync(FOLDER).filter(name => /^[a-z].*\.md$/.test(name));
  if (there.length !== listed.length) throw new Error(`${FOLDER}/README.md lists not every page`);
  return ['README', ...listed].map(name => pageOf(name, textOf(`${name}.md`)));
}

const textOf = (name: string): string => readFileSync(`${FOLDER}/${name}`, 'utf8');

function pageOf(name: string, markdown: string): GuidePage {
  // marks for the test of the numbers
  const text = markdown.replace(/<!--.*?-->/g, '');
  const title = /^# (.+)$/m.exec(text)?.[1] ?? name;
  return { name, title, html: withFractions(marked.parse(text, { async: false })) };
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

const marked = new Marked({
  renderer: {
    link({ href, tokens }) {
      const to = /^([\w-]+)\.md$/.exec(href)?.[1];
      if (to === undefined) throw new Error(`${FOLDER}: a link to ${href}, which is no page of it`);
      return `<a href="#${to}">${this.parser.parseInline(tokens)}</a>`;
    },
    image({ href, text }) {
      const drawing = textOf(href).replace(/ width="\d+" height="\d+" role/, ' role');
      return `<span class="drawing" title="${escaped(text)}">${drawing}</span>`;
    },
    html(): string {
      throw new Error(`${FOLDER}: HTML in a page`);
    },
    table({ header, rows }) {
      const cells = (row: typeof header, tag: string): string =>
        row.map(({ tokens }) => `<${tag}>${this.parser.parseInline(tokens)}</${tag}>`).join('');
      const body = rows.map(row => `<tr>${cells(row, 'td')}</tr>`).join('');
      return `<div class="table" tabindex="0"><table><thead><tr>${cells(header, 'th')}</tr></thead><tbody>${body}</tbody></table></div>`;
    },
  },
});

/** Fractions in small figures, as everywhere on the page; not in code, nor in drawings. */
function withFractions(html: string): string {
  return html
    .split(/(<code[\s\S]*?<\/code>|<svg[\s\S]*?<\/svg>|<[^>]+>)/)
    .map((text, i) => (i % 2 === 1 ? text : text.replace(FRACTION, fraction)))
    .join('');
}

const FRACTION = /(\d+) (\d+\/\d+)|\b(\d{1,2}\/\d{1,2})\b/g;

const fraction = (_: string, whole?: string, part?: string, alone?: string): string =>
  whole === undefined
    ? `<span class="frac">${alone}</span>`
    : `${whole}<span class="frac-space"> </span><span class="frac">${part}</span>`;

export const guide = (): Plugin => {
  const own = '\0virtual:guide';
  return {
    name: 'guide',
    resolveId: id => (id === 'virtual:guide' ? own : undefined),
    load(id) {
      if (id !== own) return undefined;
      return `export default ${JSON.stringify(guidePages())}`;
    },
  };
};

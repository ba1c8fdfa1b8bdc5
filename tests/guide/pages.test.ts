/** The guide as the page has it: every page, nothing that the content policy refuses, no Markdown left in it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { guidePages } from '../../vite.guide.ts';

const GUIDE = join(import.meta.dirname, '../../docs/guide');
const pages = guidePages();
const names = pages.map(({ name }) => name);

test('the list of pages leads, and every page has its title', () => {
  expect(names[0]).toBe('README');
  expect(names.length).toBeGreaterThan(6);
  expect(new Set(pages.map(({ title }) => title)).size).toBe(pages.length);
});

test.each(pages)('$name: plain HTML with working links', ({ name, title, html }) => {
  expect(html).not.toMatch(/style=|<style|<script|javascript:|<!--|onclick/);
  expect(html).toContain(`<h1>${title}</h1>`);
  const words = html.replace(/<code[\s\S]*?<\/code>|<svg[\s\S]*?<\/svg>|<[^>]+>/g, '');
  expect(words).not.toMatch(/\*\*|\]\(|^#|\|/m);
  for (const [, to] of html.matchAll(/href="#([^"]*)"/g)) expect(names).toContain(to);
  expect(html.match(/<a /g)?.length ?? 0).toBe(html.match(/href="#/g)?.length ?? 0);
  const markdown = readFileSync(join(GUIDE, `${name}.md`), 'utf8');
  expect(html.match(/<svg /g)?.length ?? 0).toBe(markdown.match(/!\[/g)?.length ?? 0);
});

test('fractions are set apart and still read as they are written', () => {
  const cure = pages.find(({ name }) => name === 'curing-a-hit')?.html ?? '';
  expect(cure).toContain('5<span class="frac-space"> </span><span class="frac">5/8</span> up');
  expect(cure.replace(/<[^>]+>/g, '')).toContain('driver wheel\n5 5/8 up');
});

/** What the built page may do and holds: its content policy, in the page and in the worker, and what is in which chunk. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';
import { standing, story } from './shop.ts';

const chunks = (): string[] => readdirSync(join(inject('dist'), 'assets')).filter(isScript);
const isScript = (name: string): boolean => name.endsWith('.js');
const textOf = (name: string): string => readFileSync(join(inject('dist'), 'assets', name), 'utf8');

/** Words that zod and mathjs cannot be without, and that nothing of ours says. */
const ZOD = /\$ZodType|invalid_union/;
const MATHJS = /OperatorNode|typed-function/;

test('policy stands in the header of every answer and in the page itself', async () => {
  const address = inject('address');
  const worker = chunks().find(name => name.startsWith('workshop'));
  for (const path of ['', `assets/${worker}`]) {
    const answer = await fetch(new URL(path, address));
    const policy = answer.headers.get('content-security-policy');
    expect(policy).toMatch(/(^|; )script-src 'self'(;|$)/);
    expect(policy).toMatch(/(^|; )style-src 'self'(;|$)/);
  }
  const html = (await (await fetch(address)).text()).replaceAll('&#39;', "'");
  expect(html).toMatch(
    /<meta http-equiv="Content-Security-Policy" content="[^"]*script-src 'self'/,
  );
  expect(html).not.toMatch(/<script(?![^>]*\bsrc=)[^>]*>/);
  expect(html).not.toMatch(/<style|style="/);
});

story(
  'the page obeys it: no script from a text, no style element, no other host',
  { expected: /Content Security Policy|ERR_/ },
  async page => {
    await standing(page);
    const tried = await page.evaluate(async () => {
      // what a debugger evaluates is free of the policy, a timer with a text is not
      setTimeout('window.ranText = true' as unknown as () => void);
      const script = document.createElement('script');
      script.textContent = 'window.ranInline = true';
      document.head.append(script);
      const style = document.createElement('style');
      style.textContent = 'body { outline: 7px solid red }';
      document.head.append(style);
      const asks = await fetch('https://example.invalid/').then(
        () => 'answered',
        () => 'refused',
      );
      return {
        evaluates: 'ranText' in window,
        inline: 'ranInline' in window,
        outline: getComputedStyle(document.body).outlineWidth === '7px',
        asks,
      };
    });
    expect(tried).toEqual({ evaluates: false, inline: false, outline: false, asks: 'refused' });
  },
);

story('the worker obeys it too', { expected: /Content Security Policy/ }, async page => {
  await standing(page);
  const worker = page.workers().find(each => each.url().includes('workshop'));
  if (!worker) throw new Error('no worker');
  const ran = await worker.evaluate(async () => {
    const self = globalThis as { ranText?: boolean };
    setTimeout('self.ranText = true' as unknown as () => void);
    await new Promise(resolve => setTimeout(resolve, 50));
    return self.ranText === true;
  });
  expect(ran).toBe(false);
});

test('no zod and no mathjs in the worker, and a file reader that has them', () => {
  const all = chunks();
  const holding = (mark: RegExp): string[] => all.filter(name => mark.test(textOf(name)));
  expect(all.some(name => name.startsWith('workshop'))).toBe(true);
  for (const name of all.filter(each => /^(workshop|index)/.test(each))) {
    expect(ZOD.test(textOf(name)), `zod in ${name}`).toBe(false);
    expect(MATHJS.test(textOf(name)), `mathjs in ${name}`).toBe(false);
  }
  // the marks are good: the reader has both
  expect(holding(ZOD)).not.toEqual([]);
  expect(holding(MATHJS)).not.toEqual([]);
});

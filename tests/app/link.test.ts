import { readFileSync } from 'node:fs';
import { deflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import {
  fragmentOf,
  isBuildLink,
  LARGEST_LINK_bytes,
  textOfLink,
} from '../../src/app/files/link.ts';

const text = readFileSync(
  new URL('../../examples/long-arm-front.axlewalk.json', import.meta.url),
  'utf8',
);
/** As somebody makes a link by hand: zlib is another hand than the browser's streams. */
const packed = (bytes: Uint8Array): string =>
  `#build=${deflateRawSync(bytes, { level: 9 }).toString('base64url')}`;

test('a build goes into a link and comes out as it was', async () => {
  const fragment = await fragmentOf(text);
  expect(fragment && isBuildLink(fragment)).toBe(true);
  expect(fragment).toMatch(/^#build=[\w-]+$/);
  expect(await textOfLink(fragment ?? '')).toEqual({ ok: true, text });
  // another packer's link is read alike
  expect(await textOfLink(packed(new TextEncoder().encode(text)))).toEqual({ ok: true, text });
});

test('what is too large for a link gets none', async () => {
  let noise = '';
  for (let k = 0; noise.length < 3 * LARGEST_LINK_bytes; k++) noise += Math.sin(k).toString();
  expect(await fragmentOf(noise)).toBeNull();
});

describe('a link that was made to harm or was cut off is refused with a reason', () => {
  test.each([
    ['nothing', '#build='],
    ['no letters of a link', '#build=<script>alert(1)</script>'],
    ['cut off', packed(new TextEncoder().encode(text)).slice(0, 900)],
    ['noise', `#build=${'A'.repeat(400)}`],
    ['too long', `#build=${'A'.repeat(12_000)}`],
    // 4 MiB of one letter pack into some 4 kB
    ['that fills the memory', packed(new Uint8Array(4 * 1024 * 1024).fill(32))],
    ['no text', packed(new Uint8Array([0xff, 0xfe, 0xc0]))],
  ])('%s', async (_, hash) => {
    const found = await textOfLink(hash);
    expect(found.ok).toBe(false);
    expect(!found.ok && found.why).not.toBe('');
  });
});

/**
 * A small build in a link's fragment: compressed, so that nothing of it goes to a server. What comes by a link is
 * somebody's text: its size is limited before and after it is unpacked, and it is read like any file.
 */

/** Compressed; longer links are cut off on their way by mail and chat. */
export const LARGEST_LINK_bytes = 8192;
/** Unpacked: what is larger was made to fill the memory. */
const LARGEST_TEXT_bytes = 512 * 1024;
const KEY = '#build=';
const FORMAT = 'deflate-raw';

export const isBuildLink = (hash: string): boolean => hash.startsWith(KEY);

/**
 * The fragment that carries a build; null where it is too large for one.
 *
 * @example location.origin + location.pathname + (await fragmentOf(text))
 */
export async function fragmentOf(text: string): Promise<string | null> {
  const packed = await all(through(new TextEncoder().encode(text), new CompressionStream(FORMAT)), {
    most: LARGEST_LINK_bytes,
  });
  return packed && KEY + toBase64Url(packed);
}

export type FromLink = { ok: true; text: string } | { ok: false; why: string };

/** The build's text that a fragment carries, or why there is none. Never throws. */
export async function textOfLink(hash: string): Promise<FromLink> {
  const packed = fromBase64Url(hash.slice(KEY.length));
  if (!packed) return { ok: false, why: 'it was cut off or changed on its way' };
  if (packed.length > LARGEST_LINK_bytes) return { ok: false, why: 'it is too long' };
  try {
    const bytes = await all(through(packed, new DecompressionStream(FORMAT)), {
      most: LARGEST_TEXT_bytes,
    });
    if (!bytes) return { ok: false, why: 'it unpacks to more than any build' };
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { ok: false, why: 'it was cut off or changed on its way' };
  }
}

function through(
  bytes: Uint8Array,
  stream: CompressionStream | DecompressionStream,
): ReadableStream<Uint8Array> {
  return new Blob([bytes as Uint8Array<ArrayBuffer>])
    .stream()
    .pipeThrough(stream) as ReadableStream<Uint8Array>;
}

/** All of a stream; null, without reading on, where it is more than the most. */
async function all(
  stream: ReadableStream<Uint8Array>,
  { most }: { most: number },
): Promise<Uint8Array | null> {
  const reader = stream.getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > most) {
      await reader.cancel().catch(() => {});
      return null;
    }
    parts.push(value);
  }
  const out = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

function toBase64Url(bytes: Uint8Array): string {
  const text = btoa(String.fromCharCode(...bytes));
  return text.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

function fromBase64Url(text: string): Uint8Array | null {
  // four letters are three bytes
  if (!/^[\w-]+$/.test(text) || text.length > (4 * LARGEST_LINK_bytes) / 3 + 4) return null;
  try {
    const letters = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
    return Uint8Array.from(letters, letter => letter.charCodeAt(0));
  } catch {
    return null;
  }
}

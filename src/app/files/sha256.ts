/** SHA-256 of a file (FIPS 180-4), by which it is known again. */

/** 64 hexadecimal digits; null where the browser does not offer it: it does on secure pages alone. */
export async function sha256Of(bytes: Uint8Array): Promise<string | null> {
  if (!globalThis.crypto?.subtle) return null;
  const digest = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return [...new Uint8Array(digest)].map(each => each.toString(16).padStart(2, '0')).join('');
}

/** Mirrored parts: written once for the left side, here taken apart into left and right. */
import type { Side, Vec3 } from '../build.ts';

/** A part on one side. */
export interface Sided<T> {
  /** `left NAME`, `right NAME`; NAME where the part is not mirrored. */
  name: string;
  /** Which image of a mirrored part it is; null where the part is not mirrored. */
  image: Side | null;
  part: T;
  /** Place of the part in the file. */
  path: string;
}

/** The part itself, or its two images. */
export function imagesOf<T extends { name: string; sides?: 'mirror' | null | undefined }>(
  part: T,
  path: string,
): Sided<T>[] {
  if (part.sides !== 'mirror') return [{ name: part.name, image: null, part, path }];
  return (['left', 'right'] as const).map(image => ({
    name: `${image} ${part.name}`,
    image,
    part,
    path,
  }));
}

/** All parts of a list, on their sides. */
export function sided<T extends { name: string; sides?: 'mirror' | null | undefined }>(
  parts: readonly T[] | null | undefined,
  path: string,
): Sided<T>[] {
  return (parts ?? []).flatMap((part, i) =>
    imagesOf(part, `${path}[${elementKey(parts ?? [], i)}]`),
  );
}

/** A part of a list as paths name it: by its name where that is its own, else by its index. */
function elementKey(parts: readonly { name: string }[], index: number): string {
  const name = parts[index]?.name;
  const isOwn = parts.filter(part => part.name === name).length === 1;
  return name !== undefined && isOwn ? JSON.stringify(name) : String(index);
}

/** The mirror image of a left point or direction on the side asked for. */
export const onSide = (v: Vec3, image: Side | null): Vec3 =>
  image === 'right' ? [v[0], 0 - v[1], v[2]] : v;

/** A turn or clocking of a left part on the side asked for. */
export const turnOnSide = (turn: number, image: Side | null): number =>
  image === 'right' ? 0 - turn : turn;

/** The name of a part or body as the given image of a mirrored part means it: `left …` and `right …` change places. */
export function nameOnSide(name: string, image: Side | null): string {
  if (image !== 'right') return name;
  if (name.startsWith('left ')) return `right ${name.slice(5)}`;
  if (name.startsWith('right ')) return `left ${name.slice(6)}`;
  return name;
}

/** The side of a part that is not mirrored: by its name, else by where it lies; null on the centerline. */
export function sideOf(name: string, y: number): Side | null {
  if (name.startsWith('left ')) return 'left';
  if (name.startsWith('right ')) return 'right';
  return y > 0 ? 'left' : y < 0 ? 'right' : null;
}

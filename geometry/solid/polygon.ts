/**
 * Cuts a polygon into triangles, by ears (Meisters 1975, from memory): a corner that turns outward and whose
 * triangle holds no other corner is cut off, and so on. The polygon is seen along its mean normal
 * (Newell's sum), since corners of a file's face are only nearly in one plane. Where rounding or a
 * polygon that crosses itself leaves no ear, the next corner is cut off all the same.
 */

/** Corners from which on a face is refused: the search for ears grows with their square. */
export const MOST_CORNERS = 1000;

/** Appends the triangles of the polygon with these vertices (of `positions`, three numbers each) to `out`. */
export function cutPolygon(
  positions: ArrayLike<number>,
  corners: readonly number[],
  out: number[],
): void {
  const count = corners.length;
  if (count === 3) {
    out.push(...corners);
    return;
  }
  const at = (corner: number, axis: number) =>
    positions[3 * (corners[corner] as number) + axis] as number;
  const normal = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    for (let axis = 0; axis < 3; axis++) {
      const u = (axis + 1) % 3;
      const v = (axis + 2) % 3;
      normal[axis] = (normal[axis] as number) + (at(i, u) - at(j, u)) * (at(i, v) + at(j, v));
    }
  }
  // seen along the axis nearest to the normal, turned so that the polygon runs counterclockwise
  const sizes = normal.map(Math.abs);
  const axis = sizes.indexOf(Math.max(...sizes));
  const u = (axis + 1) % 3;
  const v = (axis + 2) % 3;
  const turned = (normal[axis] as number) < 0 ? -1 : 1;
  const x = corners.map((_, i) => at(i, u));
  const y = corners.map((_, i) => turned * at(i, v));
  // twice the area of the triangle i, j, k; positive if it runs counterclockwise
  const area = (i: number, j: number, k: number): number => {
    const [xi = 0, yi = 0] = [x[i], y[i]];
    return ((x[j] ?? 0) - xi) * ((y[k] ?? 0) - yi) - ((x[k] ?? 0) - xi) * ((y[j] ?? 0) - yi);
  };
  const left = corners.map((_, i) => i);
  while (left.length > 3) {
    let ear = left.findIndex((j, place) => {
      const i = left[(place + left.length - 1) % left.length] as number;
      const k = left[(place + 1) % left.length] as number;
      if (!(area(i, j, k) > 0)) return false;
      return !left.some(
        p =>
          p !== i &&
          p !== j &&
          p !== k &&
          area(i, j, p) >= 0 &&
          area(j, k, p) >= 0 &&
          area(k, i, p) >= 0,
      );
    });
    if (ear < 0) ear = 0;
    const triangle = [-1, 0, 1].map(
      step => left[(ear + step + left.length) % left.length] as number,
    );
    out.push(...triangle.map(i => corners[i] as number));
    left.splice(ear, 1);
  }
  out.push(...left.map(i => corners[i] as number));
}

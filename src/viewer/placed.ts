/** Where the parts stand now: one placement a part, written anew for each pose into the same numbers. */
import type { Part } from '../../geometry/gap/part.ts';
import { placePart } from '../../geometry/gap/place.ts';
import type { Pose } from '../../geometry/pose/pose.ts';
import { PLACEMENT_SIZE } from '../../geometry/solid/placement.ts';
import type { V3 } from '../../geometry/vector.ts';

/** Tells of each new pose; null where the axle cannot stand. */
export interface PoseSource {
  pose(): Pose | null;
  /** Hears of each change; ends with what is returned. */
  subscribe(hear: () => void): () => void;
}

export class Placed {
  readonly parts: readonly Part[];
  readonly places: readonly Float64Array[];
  /** Grows with each pose. */
  version = 0;
  pose: Pose | null = null;
  readonly #index: ReadonlyMap<string, number>;

  constructor(parts: readonly Part[]) {
    this.parts = parts;
    this.places = parts.map(() => identity());
    this.#index = new Map(parts.map(({ name }, i) => [name, i]));
  }

  /** Places all parts; a pose that is null leaves them where they were. */
  stand(pose: Pose | null): void {
    if (!pose || pose === this.pose) return;
    for (let i = 0; i < this.parts.length; i++) {
      placePart(this.parts[i] as Part, pose, this.places[i] as Float64Array);
    }
    this.pose = pose;
    this.version++;
  }

  /** −1 for a part that is not there. */
  indexOf(name: string): number {
    return this.#index.get(name) ?? -1;
  }
}

function identity(): Float64Array {
  const place = new Float64Array(PLACEMENT_SIZE);
  place[0] = 1;
  place[4] = 1;
  place[8] = 1;
  return place;
}

/** A point of a part, drawn, carried to where the part is; written to `out`. */
export function carry(place: Float64Array, p: V3, out: { x: number; y: number; z: number }): void {
  out.x = at(place, 0) * p[0] + at(place, 1) * p[1] + at(place, 2) * p[2] + at(place, 9);
  out.y = at(place, 3) * p[0] + at(place, 4) * p[1] + at(place, 5) * p[2] + at(place, 10);
  out.z = at(place, 6) * p[0] + at(place, 7) * p[1] + at(place, 8) * p[2] + at(place, 11);
}

const at = (numbers: ArrayLike<number>, i: number): number => numbers[i] as number;

/** A placement as the sixteen numbers of a matrix, column by column. */
export function toMatrix(place: ArrayLike<number>, out: number[]): void {
  for (let column = 0; column < 3; column++) {
    for (let row = 0; row < 3; row++) out[4 * column + row] = at(place, 3 * row + column);
    out[4 * column + 3] = 0;
  }
  out[12] = at(place, 9);
  out[13] = at(place, 10);
  out[14] = at(place, 11);
  out[15] = 1;
}

/**
 * Undoes the stretch of a part between two ends and holds it at one of them: the same turn, its own length, that
 * end where it is. Writes a matrix, column by column.
 *
 * @param line unit, the drawn line between the ends
 * @param stretch length now over length as drawn
 * @param end the end that is held, drawn
 */
export function toHeld(
  place: ArrayLike<number>,
  line: V3,
  stretch: number,
  end: V3,
  out: number[],
): void {
  const back = 1 / stretch - 1;
  for (let row = 0; row < 3; row++) {
    const a = at(place, 3 * row);
    const b = at(place, 3 * row + 1);
    const c = at(place, 3 * row + 2);
    // M (1 + (1/s − 1) l lᵀ)
    const along = (a * line[0] + b * line[1] + c * line[2]) * back;
    out[row] = a + along * line[0];
    out[4 + row] = b + along * line[1];
    out[8 + row] = c + along * line[2];
    const now = a * end[0] + b * end[1] + c * end[2] + at(place, 9 + row);
    out[12 + row] =
      now -
      ((out[row] as number) * end[0] +
        (out[4 + row] as number) * end[1] +
        (out[8 + row] as number) * end[2]);
  }
  out[3] = 0;
  out[7] = 0;
  out[11] = 0;
  out[15] = 1;
}

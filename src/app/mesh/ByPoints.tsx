/** Where a mesh lies by three places that are found both in the file and on the vehicle. */
import type { Vec3 } from '../../../geometry/build/build.ts';
import {
  INCHES,
  type MeshPlace,
  type MeshUnit,
  type PointPair,
  placedByPoints,
} from '../../../geometry/build/meshPart.ts';
import { theReader } from '../files/reader.ts';
import { UNIT_WORDS } from './ByOrigin.tsx';

type Triple = [string, string, string];

/** As typed. */
interface TypedPair {
  id: 'A' | 'B' | 'C';
  inFile: Triple;
  onVehicle: Triple;
}
export type Points = readonly TypedPair[];

export const NO_POINTS: Points = (['A', 'B', 'C'] as const).map(id => ({
  id,
  inFile: ['', '', ''],
  onVehicle: ['', '', ''],
}));

interface ByPointsProps {
  points: Points;
  unit: 'in' | 'mm';
  change(points: Points): void;
}

const FILE_WORDS = ['X', 'Y', 'Z'] as const;
const VEHICLE_WORDS = ['fore and aft', 'sideways', 'height'] as const;
const VEHICLE_HINTS = ['forward', 'left', 'up'] as const;

export function ByPoints({ points, unit, change }: ByPointsProps) {
  const set = (id: string, key: 'inFile' | 'onVehicle', i: number, value: string): void =>
    change(
      points.map(each =>
        each.id === id ? { ...each, [key]: each[key].with(i, value) as Triple } : each,
      ),
    );
  return (
    <>
      <p className="note">
        Three places far apart that you can find in the file and on the vehicle, such as bolt holes.
        In the file as it says, in its own unit; on the vehicle as other points of the build are
        typed, in {UNIT_WORDS[unit]}.
      </p>
      <div className="mesh-points">
        <span />
        <span className="note">In the file: X, Y, Z</span>
        <span className="note">On the vehicle: fore and aft, sideways, height</span>
        {points.map(({ id, inFile, onVehicle }) => (
          <fieldset key={id} className="mesh-point" aria-label={`Point ${id}`}>
            <b>{id}</b>
            <span className="mesh-narrow">{id} in the file</span>
            <span className="mesh-triple">
              {FILE_WORDS.map((words, i) => (
                <input
                  key={words}
                  className="field"
                  aria-label={`${id} in the file, ${words}`}
                  placeholder={words}
                  value={inFile[i]}
                  inputMode="decimal"
                  autoComplete="off"
                  onChange={event => set(id, 'inFile', i, event.target.value)}
                />
              ))}
            </span>
            <span className="mesh-narrow">{id} on the vehicle</span>
            <span className="mesh-triple">
              {VEHICLE_WORDS.map((words, i) => (
                <input
                  key={words}
                  className="field"
                  aria-label={`${id} on the vehicle, ${words}`}
                  placeholder={VEHICLE_HINTS[i]}
                  value={onVehicle[i]}
                  autoComplete="off"
                  onChange={event => set(id, 'onVehicle', i, event.target.value)}
                />
              ))}
            </span>
          </fieldset>
        ))}
      </div>
    </>
  );
}

/** Points that fit worse than this, in, are no three points of one thing: a tape is off by an eighth or two. */
const WORST_in = 1;
/** Points so many times as far apart are in another unit. */
const OTHER_UNIT = 1.2;

/** The place that three typed points give, or what is wrong with them. @param unit of the build */
export async function placeOf(
  points: Points,
  fileUnit: MeshUnit,
  unit: 'in' | 'mm',
): Promise<MeshPlace | { problem: string }> {
  const { lengthOf } = await theReader();
  const pairs: PointPair[] = [];
  for (const { id, inFile, onVehicle } of points) {
    const file = inFile.map(each => (each.trim() === '' ? Number.NaN : Number(each)));
    const wrong = file.findIndex(each => !Number.isFinite(each));
    if (wrong >= 0) {
      return { problem: `Point ${id} in the file, ${FILE_WORDS[wrong]}: write a plain number` };
    }
    const at: number[] = [];
    for (const [i, typed] of onVehicle.entries()) {
      const read = lengthOf(typed.trim(), unit);
      if (typeof read !== 'number') {
        return { problem: `Point ${id} on the vehicle, ${VEHICLE_WORDS[i]}: ${read.problem}` };
      }
      at.push(read);
    }
    pairs.push({ inFile: file as unknown as Vec3, onVehicle: at as unknown as Vec3 });
  }
  const [a, b, c] = pairs;
  if (!a || !b || !c) return { problem: 'Three points are needed' };
  const placed = placedByPoints([a, b, c], INCHES[fileUnit]);
  if (!placed.ok) return { problem: `They settle nothing: ${placed.message}` };
  const { off, stretch } = placed;
  if (stretch > OTHER_UNIT || stretch < 1 / OTHER_UNIT) {
    const times = stretch > 1 ? stretch : 1 / stretch;
    const where = stretch > 1 ? 'in the file' : 'on the vehicle';
    return {
      problem: `The points lie ${times.toFixed(1)} times as far apart ${where}: check the unit of the file`,
    };
  }
  if (off > WORST_in) {
    return { problem: `The points don’t fit each other: one is off by ${off.toFixed(1)} in` };
  }
  const inUnit = unit === 'mm' ? 25.4 : 1;
  const rounded = (v: Vec3, digits: number): Vec3 =>
    v.map(each => Number(each.toFixed(digits)) + 0) as unknown as Vec3;
  return {
    at: rounded(placed.at.map(each => each * inUnit) as unknown as Vec3, 3),
    forward: rounded(placed.forward, 6),
    up: rounded(placed.up, 6),
  };
}

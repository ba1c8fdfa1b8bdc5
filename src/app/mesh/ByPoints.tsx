/** Where a mesh lies by three places that are found both in the file and on the vehicle. */
import type { Vec3 } from '../../../geometry/build/build.ts';
import { formatLength } from '../../../geometry/build/format.ts';
import {
  type MeshPlace,
  type MeshUnit,
  type PointPair,
  placedByPoints,
} from '../../../geometry/build/meshPart.ts';
import { INCH_mm } from '../../../geometry/build/units.ts';
import { INCHES_OF_UNIT } from '../../../geometry/solid/triangles.ts';
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
  const set = (id: string, part: Partial<TypedPair>): void =>
    change(points.map(each => (each.id === id ? { ...each, ...part } : each)));
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
            <TripleFields
              title={`${id} in the file`}
              words={FILE_WORDS}
              hints={FILE_WORDS}
              inputMode="decimal"
              typed={inFile}
              change={typed => set(id, { inFile: typed })}
            />
            <TripleFields
              title={`${id} on the vehicle`}
              words={VEHICLE_WORDS}
              hints={VEHICLE_HINTS}
              inputMode="text"
              typed={onVehicle}
              change={typed => set(id, { onVehicle: typed })}
            />
          </fieldset>
        ))}
      </div>
    </>
  );
}

interface TripleFieldsProps {
  title: string;
  words: readonly string[];
  hints: readonly string[];
  inputMode: 'decimal' | 'text';
  typed: Triple;
  change(typed: Triple): void;
}

/** Three numbers side by side, with their title above them where the page is narrow. */
function TripleFields({ title, words, hints, inputMode, typed, change }: TripleFieldsProps) {
  return (
    <>
      <span className="mesh-narrow">{title}</span>
      <span className="mesh-triple">
        {words.map((each, i) => (
          <input
            key={each}
            className="field"
            aria-label={`${title}, ${each}`}
            placeholder={hints[i]}
            value={typed[i]}
            inputMode={inputMode}
            autoComplete="off"
            onChange={event => change(typed.with(i, event.target.value) as Triple)}
          />
        ))}
      </span>
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
  const placed = placedByPoints([a, b, c], INCHES_OF_UNIT[fileUnit]);
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
    const amount = `${formatLength(off, { unit })} ${unit}`;
    return { problem: `The points don’t fit each other: one is off by ${amount}` };
  }
  const inUnit = unit === 'mm' ? INCH_mm : 1;
  const rounded = (v: Vec3, digits: number): Vec3 =>
    v.map(each => Number(each.toFixed(digits)) + 0) as unknown as Vec3;
  return {
    at: rounded(placed.at.map(each => each * inUnit) as unknown as Vec3, 3),
    forward: rounded(placed.forward, 6),
    up: rounded(placed.up, 6),
  };
}

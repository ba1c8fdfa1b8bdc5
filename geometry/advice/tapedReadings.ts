/** The taped readings of a build file, ready to be checked, and the build as it stood when it was taped. */
import type { Build, Entry } from '../build/build.ts';
import { entrySlopeSteps } from '../build/entrySlopes.ts';
import { readValue } from '../build/read.ts';
import type { BuildFile } from '../build/schema/file.ts';
import { toEnd } from '../toEnd.ts';
import { numbered } from './numbered.ts';
import {
  checkTape,
  distanceReading,
  riseReading,
  slantReading,
  type TapeCheck,
  type TapeReading,
} from './tapeCheck.ts';
import { walkReadings } from './walkReadings.ts';

/** How far off a reading is taken to be that does not say: common practice, no source. */
const TAPE_in = 1 / 8;
const FINDER_rad = (0.5 * Math.PI) / 180;

/**
 * Checks the taped readings of a file against what was entered, as the vehicle stood when it was taped: before it is
 * raised. Null where the file cannot be read.
 */
export function checkTapeOf(file: BuildFile): TapeCheck | null {
  return toEnd(checkTapeSteps(file));
}

/** The same in short steps. */
export function* checkTapeSteps(file: BuildFile): Generator<void, TapeCheck | null> {
  // readings were taken between points as they stood; raised afterwards, they no longer fit
  const { measuredAt: _, ...asTaped } = file;
  const read = readValue(asTaped);
  yield;
  if (!read.ok) return null;
  const readings = [...tapedReadings(read.file, read.build), ...walkReadings(read.file)];
  // nothing was taped twice: nothing hangs on the slopes
  const slopes = readings.length > 0 ? yield* entrySlopeSteps(read.file, read.build) : [];
  return checkTape(read.build, slopes, readings);
}

/** The readings under `taped`; what is taped twice is told apart by a number. */
export function tapedReadings(file: BuildFile, build: Build): TapeReading[] {
  const entries = new Map(build.entries.map(entry => [entry.path, entry]));
  const readings = (file.taped ?? []).flatMap((reading, i): TapeReading[] => {
    const entry = (field: string): Entry | undefined => entries.get(`taped[${i}].${field}`);
    if ('of' in reading) {
      const [rise, over] = [entry('rise'), entry('over')];
      if (!rise || !over) return [];
      const tolerance = rise.tolerance ?? TAPE_in;
      const name = `${reading.of} from two heights`;
      return [riseReading(name, reading.of, { value: rise.value, tolerance }, over.value)];
    }
    const { from, to } = reading;
    const name = `${from} to ${to}`;
    if ('angle' in reading) {
      const angle = entry('angle');
      if (!angle) return [];
      const { value, tolerance } = angle;
      const called = `${name}, slant from the ${reading.plane}`;
      return [
        slantReading(
          { name: called, value, tolerance: tolerance ?? FINDER_rad },
          from,
          to,
          reading.plane,
        ),
      ];
    }
    const length = entry('length');
    if (!length) return [];
    const along = reading.along ?? 'straight';
    const called = along === 'straight' ? name : `${name}, ${along}`;
    const { value, tolerance } = length;
    return [
      distanceReading({ name: called, value, tolerance: tolerance ?? TAPE_in }, from, to, along),
    ];
  });
  const names = numbered(readings.map(({ name }) => name));
  return readings.map((reading, i) => ({ ...reading, name: names[i] ?? reading.name }));
}

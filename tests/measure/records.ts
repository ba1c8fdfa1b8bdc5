/** The oracle's records (tests/oracle/records), with the Build of each case. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import type { Axle, Build } from '../../geometry/build/build.ts';
import { readBuild } from '../../geometry/build/read.ts';
import { geometryDigest } from '../oracle/dump.ts';

export interface RecordedMeasure {
  id: string;
  part: string | null;
  side: 'left' | 'right' | null;
  /** As shown; null where the definition gives none. */
  value: number | null;
  unit: string;
}

export interface RecordedPose {
  left_in: number;
  right_in: number;
  /** deg of pitman arm or in of ram rod; null on an axle that does not steer. */
  steer: number | null;
  status: 'solved' | 'unreachable';
  measures?: RecordedMeasure[];
  /** Links and track bars, + tension. */
  stretch_in?: Record<string, number>;
  force_lbf?: Record<string, number>;
  /** Joints that give. */
  joints?: Record<string, { offset_in: number; force_lbf: number }>;
}

export interface RecordedCase {
  name: string;
  axle: Axle;
  build: Build;
  poses: RecordedPose[];
}

interface WrittenCase extends Omit<RecordedCase, 'axle' | 'build'> {
  axle: string;
  build: Build | null;
  file: string | null;
  variant: string | null;
  sha256?: string;
}

const top = fileURLToPath(new URL('../..', import.meta.url));
const records = `${top}tests/oracle/records/`;

/** Names of all record files. */
export const recordFiles = (): string[] =>
  readdirSync(records)
    .filter(name => /\.json(\.gz\.base64)?$/.test(name))
    .sort();

/** Cases of a record file. @throws where an example has changed since its record was made */
export function recordedCases(name: string): RecordedCase[] {
  const written = readFileSync(records + name, 'utf8');
  const text = name.endsWith('.base64')
    ? gunzipSync(Buffer.from(written, 'base64')).toString()
    : written;
  const { cases } = JSON.parse(text) as { cases: WrittenCase[] };
  return cases.map(({ axle, build, file, variant, sha256, ...rest }) => {
    const used = build ?? readFileOf(file ?? '', variant, sha256);
    const found = used.axles.find(a => a.name === axle);
    if (!found) throw new Error(`${name}: no ${axle} axle`);
    return { ...rest, build: used, axle: found };
  });
}

function readFileOf(file: string, variant: string | null, sha256: string | undefined): Build {
  const read = readBuild(readFileSync(top + file), { variant });
  if (!read.ok) throw new Error(`${file}: ${JSON.stringify(read.problems)}`);
  if (sha256 !== undefined && geometryDigest(read.build) !== sha256) {
    throw new Error(`${file} has changed since its record was made: tests/oracle/record.sh`);
  }
  return read.build;
}

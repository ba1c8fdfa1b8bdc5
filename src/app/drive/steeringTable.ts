/** The inner tire's turn over the steering input at one place of the axle: read both ways. */
import type { Pose } from '../../../geometry/pose/pose.ts';
import type { Rig, Shown } from '../state/rig.ts';
import { innerTire } from '../words/shopWords.ts';

/** Rising, from full right to full left. */
export interface SteeringTable {
  /** Steering inputs, rad or in. */
  steers: number[];
  /** The inner tire's turns, deg, + left. */
  turns: number[];
}

const SAMPLES = 41;

/** Null where nothing can be steered there. */
export function steeringTable(rig: Rig, { pose, interval }: Shown): SteeringTable | null {
  if (!pose || !interval || !rig.axle.steered) return null;
  const table: SteeringTable = { steers: [], turns: [] };
  const { least, greatest } = interval;
  for (let i = 0; i < SAMPLES; i++) {
    const steer = least.value + ((greatest.value - least.value) * i) / (SAMPLES - 1);
    const at: Pose | null = rig.model.atSteer(pose, steer).pose;
    const turn = at && innerTire(at);
    if (turn === null) continue;
    // where the inner tire changes sides its turn may step back by the toe of both
    const last = table.turns.at(-1) ?? Number.NEGATIVE_INFINITY;
    table.steers.push(steer);
    table.turns.push(Math.max(turn, last + 1e-9));
  }
  return table.turns.length > 1 ? table : null;
}

/** One column of the table at a value of the other, by straight lines; held at its ends. */
export function readAcross(from: readonly number[], to: readonly number[], value: number): number {
  let i = 1;
  while (i < from.length - 1 && (from[i] as number) < value) i++;
  const [a, b] = [from[i - 1] as number, from[i] as number];
  const [p, q] = [to[i - 1] as number, to[i] as number];
  return p + Math.min(1, Math.max(0, (value - a) / (b - a))) * (q - p);
}

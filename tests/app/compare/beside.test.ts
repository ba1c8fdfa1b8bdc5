import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { inputLike } from '../../../geometry/compare/places.ts';
import { openBuild } from '../../../geometry/cycle/open.ts';
import { findRange } from '../../../geometry/cycle/range.ts';
import { meanSteer } from '../../../geometry/measure/meanSteer.ts';
import { MeasureContext } from '../../../geometry/measure/measure.ts';
import { endBefore, standingBeside } from '../../../src/app/compare/beside.ts';
import { makeRig, type Rig } from '../../../src/app/state/rig.ts';
import type { RangeTold } from '../../../src/worker/protocol.ts';

function rigOf(example: string, variant: string | null = null): Rig {
  const text = readFileSync(`examples/${example}.axlewalk.json`, 'utf8');
  const opened = openBuild(text, { variant });
  if (!opened.ok || !opened.axles[0]) throw new Error(`${example} is refused`);
  return makeRig(opened.axles[0], new Map());
}

function rangeOf({ build, axle, model }: Rig): RangeTold {
  const { range, reach } = findRange(build, axle, model);
  const { edge, ends, unstopped, holdsRide } = range;
  return { edge, ends, unstopped, holdsRide, box: reach.box };
}

describe('long arms, with short arms beside them', () => {
  const [long, short] = [rigOf('long-arm-front'), rigOf('long-arm-front', 'short arms')];
  const range = rangeOf(short);

  test('stand at equal travel and steering, each a solution of its own', () => {
    const handle = { left: 3, right: -2, steer: 0.2, lock: 0 } as const;
    const { shown, isBeyond } = standingBeside(long, short, handle, range, null);
    expect(isBeyond).toBe(false);
    expect(shown.handle).toMatchObject({ left: 3, right: -2, steer: 0.2 });
    expect(shown.pose?.mechanism).toBe(short.model.mechanism);
  });

  test('short arms end before long ones, at the bump stop', () => {
    // both wheels up: 5.023 in against 5.003 in (the command line’s ranges of the two)
    const handle = { left: 5.02, right: 5.02, steer: 0, lock: 0 } as const;
    expect(standingBeside(long, short, handle, range, null).isBeyond).toBe(true);
    expect(endBefore(long, short, handle)?.by).toBe('bumpStop');
    expect(standingBeside(short, long, handle, rangeOf(long), null).isBeyond).toBe(false);
  });

  test('at full lock of A, B stands at the same input', () => {
    const most = long.reach.steering(long.model.ride)?.greatest.value ?? 0;
    const handle = { left: 0, right: 0, steer: most, lock: 1 } as const;
    const { shown, isBeyond } = standingBeside(long, short, handle, range, null);
    expect(isBeyond).toBe(false);
    expect(shown.handle.steer).toBeCloseTo(most, 9);
  });
});

test('a ram is asked for the input that turns the wheels as a pitman does', () => {
  const [pitman, ram] = [rigOf('long-arm-front'), rigOf('double-ram-front')];
  expect(pitman.model.mechanism.steering?.unit).toBe('rad');
  expect(ram.model.mechanism.steering?.unit).toBe('in');
  const turned = ({ build, axle, model }: Rig, input: number): number => {
    const { pose } = model.atSteer(model.ride, input);
    if (!pose) throw new Error('no such pose');
    const value = meanSteer.value(new MeasureContext(build, axle, model, pose), {
      part: null,
      side: null,
    });
    return typeof value === 'number' ? value : Number.NaN;
  };
  for (const input of [0.1, -0.3]) {
    const like = inputLike(pitman, ram, input);
    // found by halving, to the last digit
    expect(turned(ram, like)).toBeCloseTo(turned(pitman, input), 9);
  }
  expect(inputLike(pitman, ram, 0)).toBe(0);
});

import { expect, test } from 'vitest';
import type { PoseReport } from '../../geometry/cycle/poseReport.ts';
import { sample } from '../build/sample.ts';
import { axleIn, axlewalk, TRUCK, withFile } from './terminal.ts';

async function json(...words: string[]): Promise<PoseReport & { code: number }> {
  const { code, out, err } = await axlewalk(['pose', TRUCK, ...words, '--json']);
  expect(err).toBe('');
  return { ...(JSON.parse(out) as PoseReport), code };
}

test('a pose as text: where it is, what it measures, how long all is, and the cautions', async () => {
  const { code, out, err } = await axlewalk(['pose', TRUCK, '--left', '4 1/2', '--right=-2 1/4']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(
    /^fence truck: front axle, driver wheel 4 1\/2 up, passenger wheel 2 1\/4 down, wheels straight ahead$/m,
  );
  expect(out).toMatch(/^ {2}No stop and no limit of this build is passed here\.$/m);
  expect(out).toMatch(/driver \(left\) {2}passenger \(right\)$/m);
  expect(out).toMatch(/^ {2}bump steer +-?\d+\.\d\d°$/m);
  // the drag link of the fixture as drawn: √(0.25² + 47.5² + 3.5²) = 47.629, to a sixteenth 47 5/8
  expect(out).toMatch(/^ {2}drag link +47 5\/8 in$/m);
  expect(out).toMatch(/check the finished vehicle on\s+stands/);
  expect(out).not.toMatch(/\bsafe/i);
});

test('every line fits 100 columns', async () => {
  for (const words of [
    ['pose', TRUCK, '--left', '6', '--steer=-40'],
    ['check', TRUCK],
  ]) {
    for (const line of (await axlewalk(words)).out.split('\n')) {
      expect(line.length, line).toBeLessThanOrEqual(100);
    }
  }
});

test('a pose past its limits is solved, names them first, and exits 1', async () => {
  const words = ['pose', TRUCK, '--left', '6', '--right', '6', '--steer=-40'];
  const { code, out } = await axlewalk(words);
  expect(code).toBe(1);
  const [, second, third] = out.split('\n');
  expect(second).toBe('  Past their limits here:');
  // the pad's height as drawn is 29 9/16 − 24 1/2 = 5 1/16: bottomed by 15/16, less the axle's pitch
  expect(third).toMatch(
    /^ {4}bump stop bottomed: left bump stop \(driver side\), by (15\/16|1) in$/,
  );
  expect(out).toMatch(/^ {4}steering stop: left knuckle \(driver side\), by \d\.\d\d°$/m);

  const report = await json('--left', '6', '--right', '6', '--steer=-40');
  expect(report.code).toBe(1);
  expect(report.status).toBe('solved');
  expect(report.inRange).toBe(false);
  const stop = report.broken.find(({ part }) => part === 'left bump stop');
  expect(stop?.limit).toBe('bumpStop');
  expect(Math.abs((stop?.amount ?? 0) - 15 / 16)).toBeLessThan(0.1);
});

test('a pose that does not exist exits 1 and says what ran out', async () => {
  const words = ['pose', TRUCK, '--left', '60', '--right=-60'];
  expect(await axlewalk(words)).toMatchObject({
    code: 1,
    out: expect.stringMatching(
      /^ {2}The axle cannot get there: axle housing runs out of length\.$/m,
    ),
  });
  expect(await json('--left', '60', '--right=-60')).toMatchObject({
    code: 1,
    status: 'unreachable',
    inRange: false,
  });
});

test.each([
  ['5 3/8', 5.375],
  ["1'2", 14],
  ['-25.4 mm', -1],
  ['railFace/4', 3.375],
  ['-railFace / 4', -3.375],
  ['0.5', 0.5],
])('--left %s is %d in', async (typed, inches) => {
  expect((await json('--left', typed)).travel_in.left).toBe(inches);
});

test('a bare number is in inches or degrees, also where the build is in millimeters', async () => {
  // the sample read as millimeters is a toy, 70 mm from wheel to wheel
  const toy = (): unknown => ({ ...sample(), unit: 'mm' });
  await withFile(toy, async path => {
    const { out, err } = await axlewalk(['pose', path, '--left', '0.1', '--json']);
    expect(err).toBe('');
    expect((JSON.parse(out) as PoseReport).travel_in.left).toBe(0.1);
    const text = await axlewalk(['pose', path, '--left', '0.1']);
    expect(text.out).toMatch(/driver wheel 2\.5 mm up, passenger wheel at ride height/);
  });
  const { steer } = await json('--steer', '15');
  expect(steer).toEqual({ value: expect.closeTo(15, 12), unit: 'deg' });
  expect((await json('--steer', '0.2 rad')).steer?.value).toBeCloseTo((0.2 * 180) / Math.PI, 12);
});

test('without --axle the front one; an axle that does not steer has no steer', async () => {
  expect((await json()).axle.name).toBe('front');
  const rear = await json('--axle', 'rear');
  expect(rear.axle.name).toBe('rear');
  expect(rear.steer).toBeNull();
  expect(rear.knuckles).toBeNull();
});

test('the bind of a compliant axle, with half and with twice the brackets', async () => {
  const words = ['pose', TRUCK, '--axle', 'rear', '--left', '4', '--right=-3'];
  const { out } = await axlewalk(words);
  expect(out).toMatch(/^ +length {2}stretched +force$/m);
  expect(out).toMatch(/carries the most of all links: \d+ lbf of (tension|compression)/);
  expect(out).toMatch(/^ {2}half as stiff +most give 0\.\d+ in, most force \d+ lbf/m);
  expect(out).toMatch(/^ {2}twice as stiff +most give/m);
});

test('a pose that keeps every stop where ride height keeps none is out of the range', async () => {
  const tooLong = (truck: Record<string, unknown>): void => {
    const [shock] = axleIn(truck, 1).shocks as Record<string, unknown>[];
    if (shock) shock.shortest = 24;
  };
  await withFile(tooLong, async path => {
    const words = ['pose', path, '--axle', 'rear', '--left=-3', '--right=-3'];
    const report = JSON.parse((await axlewalk([...words, '--json'])).out) as PoseReport;
    expect(report).toMatchObject({ broken: [], inRange: false });
    expect(await axlewalk(words)).toMatchObject({
      code: 0,
      out: expect.stringMatching(/cannot come here from ride\s+height without passing one/),
    });
  });
});

test('the other driver side turns the words round and not the numbers', async () => {
  await withFile(
    truck => {
      truck.driverSide = 'right';
    },
    async path => {
      const { out } = await axlewalk(['pose', path, '--left', '3', '--right=-1']);
      expect(out).toMatch(/driver wheel 1 down, passenger wheel 3 up/);
      expect(out).toMatch(/driver \(right\) {2}passenger \(left\)$/m);
    },
  );
});

test('a double-ended ram is steered in inches of rod', async () => {
  const asRam = (truck: Record<string, unknown>): void => {
    const axle = axleIn(truck, 0);
    delete truck.wanted;
    axle.steering = {
      tieRod: {
        sides: 'mirror',
        from: { on: 'ram rod', at: [6, 13, 18.5] },
        to: { on: 'left knuckle', at: [6.75, 30.75, 17.75] },
      },
      rams: [
        {
          name: 'ram',
          kind: 'double',
          body: { on: 'axle', at: [6, 0, 18.5] },
          axis: [0, 1, 0],
          stroke: 8,
        },
      ],
    };
  };
  await withFile(asRam, async path => {
    const ran = await axlewalk(['pose', path, '--steer', '1 1/2', '--json']);
    expect(ran.err).toBe('');
    const { steer, measures } = JSON.parse(ran.out) as PoseReport;
    expect(steer).toEqual({ value: 1.5, unit: 'in' });
    // + turns the wheels left
    expect(measures.find(({ id }) => id === 'meanSteer')?.value).toBeGreaterThan(5);
    const text = await axlewalk(['pose', path, '--steer', '1 1/2']);
    expect(text.out).toMatch(/both wheels at ride height, ram rod 1 1\/2 to the left/);
    const wrong = await axlewalk(['pose', path, '--steer', '10 deg']);
    expect(wrong).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringMatching(/^--steer: .*angle/),
    });
  });
});

test('the same pose twice gives the same bytes, and -0 is 0', async () => {
  const words = ['pose', TRUCK, '--left', '2', '--json'];
  const { out } = await axlewalk(words);
  expect((await axlewalk(words)).out).toBe(out);
  expect(out).not.toMatch(/-0[,\]}]/);
});

test('colors only where the screen has them', async () => {
  const words = ['pose', TRUCK, '--left', '6', '--right', '6'];
  const screen = { colors: 256, isTerminal: true, columns: 100 } as const;
  const colored = (await axlewalk(words, { screen })).out;
  const plain = (await axlewalk(words)).out;
  expect(plain).not.toContain('\u001b');
  expect(colored).toContain('\u001b[31m');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the sequences that make colors
  expect(colored.replace(/\u001b\[\d+m/g, '')).toBe(plain);
});

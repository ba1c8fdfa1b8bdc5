/**
 * Each kind of finding appears when its cause is put into a faultless axle, at a pose where the cause can be read
 * off the parts, and is not there without it.
 */
import { describe, expect, test } from 'vitest';
import type { Axle, Build, Ram } from '../../geometry/build/build.ts';
import type { Finding } from '../../geometry/finding/finding.ts';
import { rules } from '../../geometry/finding/list.ts';
import { limits } from '../../geometry/limit/list.ts';
import { lineSlack } from '../../geometry/measure/lineSlack.ts';
import { MeasureContext } from '../../geometry/measure/measure.ts';
import { distance } from '../../geometry/vector.ts';
import { bumpStops, opened, shocks } from '../cycle/made.ts';
import { adjusted, bushedArms } from '../pose/families.ts';
import { link, longArms, shortArms } from '../pose/layouts.ts';
import { STEERINGS } from '../pose/steerings.ts';
import { degrees, equipped, faultless, findingsOf, jointed, walked } from './faultless.ts';

interface Cause {
  kind: string;
  severity: Finding['severity'];
  parts: string[];
  axle: () => Axle;
  build?: Partial<Build>;
  text: RegExp;
  /** Kinds that the cause brings with it. */
  also?: string[];
}

const wanted = (more: Partial<Build['wanted']>): Partial<Build> => ({
  wanted: { bands: [], gaps: [], muted: [], assumedTravel: null, ...more },
});

const withLink =
  (name: string, more: (l: Axle['links'][number]) => Axle['links'][number]) => (): Axle => {
    const axle = faultless();
    return { ...axle, links: axle.links.map(l => (l.name === name ? more(l) : l)) };
  };

function withStops(
  inward: number | null,
  more: Partial<NonNullable<Axle['steering']>['box']> = {},
): Axle {
  const axle = faultless();
  const { knuckles, steering } = axle;
  const stop = { inward, outward: null };
  return {
    ...axle,
    knuckles: knuckles && {
      left: { ...knuckles.left, shaftLimit: null, steeringStop: stop },
      right: { ...knuckles.right, shaftLimit: null, steeringStop: stop },
    },
    steering: steering && {
      ...steering,
      box: steering.box && { ...steering.box, ...more },
    },
  };
}

function withRam(more: Partial<Ram>): Axle {
  const axle = faultless();
  const { steering } = axle;
  return {
    ...axle,
    steering: steering && { ...steering, rams: steering.rams.map(ram => ({ ...ram, ...more })) },
  };
}

function withDriveline(more: Partial<NonNullable<Axle['driveline']>>): Axle {
  const axle = faultless();
  return { ...axle, driveline: axle.driveline && { ...axle.driveline, ...more } };
}

/** A tie rod that hangs on the drag link beside its line, which rolls as far as its studs let it. */
function hungTieRod(held: 'clocked' | 'studs'): Axle {
  const steering = STEERINGS['tie rod beside the drag link']?.();
  const axle = equipped(jointed({ ...longArms(), steering: steering ?? null }));
  const drag = axle.steering?.dragLink;
  return {
    ...axle,
    steering: axle.steering && {
      ...axle.steering,
      rams: [],
      dragLink: drag ? { ...drag, roll: { held, at: 0 } } : null,
    },
  };
}

/** The ram's rod end is off the tie rod's line, and only the studs hold the tie rod's roll. */
function tieRodHeldByStuds(): Axle {
  const axle = faultless();
  const { steering } = axle;
  return {
    ...axle,
    steering: steering && {
      ...steering,
      tieRods: steering.tieRods.map(rod => ({ ...rod, roll: { held: 'studs', at: 0 } })),
    },
  };
}

const CAUSES: Cause[] = [
  {
    kind: 'limitBroken',
    severity: 'mustFix',
    parts: ['upper link.axle', 'upper link.chassis'],
    axle: withLink('upper link', l => ({
      ...l,
      axle: { ...l.axle, limit: 2 * degrees },
      chassis: { ...l.chassis, limit: 2 * degrees },
    })),
    text: /^The (axle|chassis) end of the upper link is turned \d+\.\d° past its 2\.0° limit: .* No roll of it keeps both/,
  },
  {
    kind: 'limitBroken',
    severity: 'mustFix',
    parts: ['driveshaft.pinion'],
    axle: () =>
      withDriveline({
        pinion: {
          ...(faultless().driveline as NonNullable<Axle['driveline']>).pinion,
          limit: 8 * degrees,
        },
      }),
    text: /^The U-joint at the pinion is turned .* past its 8\.0° limit/,
  },
  {
    kind: 'limitBroken',
    severity: 'mustFix',
    parts: ['right knuckle'],
    axle: () => {
      const axle = faultless();
      const { knuckles } = axle;
      return {
        ...axle,
        knuckles: knuckles && {
          ...knuckles,
          right: { ...knuckles.right, shaftLimit: 25 * degrees },
        },
      };
    },
    text: /^The passenger knuckle's axle shaft joint is turned .* past its 25\.0° limit/,
  },
  {
    kind: 'slackUsedUp',
    severity: 'mustFix',
    parts: ['left brake hose'],
    axle: () => {
      const axle = faultless();
      return { ...axle, lines: axle.lines.map((l, i) => (i === 0 ? { ...l, length: 18 } : l)) };
    },
    text: /^The driver brake hose is .* in too short: .* It begins at /,
  },
  {
    kind: 'bentTooTight',
    severity: 'mustFix',
    parts: ['right brake hose'],
    axle: () => {
      const axle = faultless();
      return {
        ...axle,
        // an arc of 30 in is never under 30/2π = 4.77 in; with its ends 15 in apart it is 7.9 in
        lines: axle.lines.map((l, i) => ({ ...l, leastBendRadius: i === 1 ? 8 : 4.75 })),
      };
    },
    text: /^The passenger brake hose is bent to a radius of 7 .* in, and may not be under 8 in: .* plain arc; .* It begins at /,
  },
  {
    kind: 'slackUsedUp',
    severity: 'mustFix',
    parts: ['driveshaft'],
    axle: () => withDriveline({ slip: [-4, 0.2] }),
    text: /^The slip of the driveshaft pulls apart, the shaft being .* in too short/,
  },
  {
    kind: 'slackUsedUp',
    severity: 'mustFix',
    parts: ['driveshaft'],
    axle: () => withDriveline({ slip: [-0.3, 4] }),
    text: /^The slip of the driveshaft bottoms, the shaft being .* in too long/,
  },
  {
    kind: 'slackUsedUp',
    severity: 'mustFix',
    parts: ['right coil'],
    axle: () => {
      const axle = faultless();
      return { ...axle, coils: axle.coils.map((c, i) => (i === 1 ? { ...c, free: 17 } : c)) };
    },
    text: /^The passenger coil comes off its seat/,
  },
  {
    kind: 'nearLimit',
    severity: 'watch',
    parts: ['left brake hose'],
    axle: () => {
      const axle = faultless();
      const reach = walked(axle).finder?.extremes(lineSlack, {
        part: 'left brake hose',
        side: null,
      }).least?.value as number;
      // half an inch of slack left where an inch is asked for
      return {
        ...axle,
        lines: axle.lines.map((l, i) => (i === 0 ? { ...l, length: l.length - reach + 0.5 } : l)),
      };
    },
    text: /^The driver brake hose has 1\/2 in of slack left: .* 1 in is asked for \(common practice\)\.$/,
  },
  {
    kind: 'limitBroken',
    severity: 'mustFix',
    parts: ['left sway bar link'],
    axle: () => ({
      ...faultless(),
      swayBar: {
        axis: { at: [20, 0, 34], direction: [0, 1, 0] },
        // arm 16 and link 15 in reach the axle in all of its travel; arm 7 and link 12 in do not reach far down
        arms: [
          { side: 'left', tip: [13, 20, 34], axle: [9, 20, 22.7] },
          { side: 'right', tip: [4, -20, 34], axle: [4, -20, 19] },
        ],
        tubeOd: null,
      },
    }),
    text: /^The driver sway bar link goes over center: .* down.* It begins at /,
  },
  {
    kind: 'nearOverCenter',
    severity: 'watch',
    parts: ['drag link'],
    axle: () => {
      const axle = withStops(62 * degrees, { sweep: null });
      return { ...axle, steering: axle.steering && { ...axle.steering, rams: [] } };
    },
    text: /^The drag link comes near over-center: a margin of 0\.\d\d/,
  },
  {
    kind: 'bind',
    severity: 'watch',
    parts: ['left upper link'],
    axle: () => {
      const axle = shortArms();
      // twenty times as stiff
      return equipped(
        jointed({ ...axle, links: axle.links.map(l => ({ ...l, rate: 20 * (l.rate ?? 0) })) }),
      );
    },
    text: /^The layout binds: the .* gives .* under [\d,]+ lbf: /,
  },
  {
    kind: 'outOfBand',
    severity: 'watch',
    parts: [],
    axle: faultless,
    build: wanted({
      bands: [
        {
          measure: 'bumpSteer',
          axle: 'front',
          part: null,
          least: -0.5,
          greatest: 0.5,
          inUnitOfMeasure: { least: true, greatest: true },
        },
      ],
    }),
    text: /^Bump steer comes to -?\d\.\d°, where at least -0\.5° and at most 0\.5° is wanted: /,
  },
  {
    kind: 'noSteeringStop',
    severity: 'mustFix',
    parts: ['left knuckle', 'right knuckle'],
    axle: () => withStops(null),
    text: /^No steering stop ends a turn either way: to the left the .* is the stop, at /,
  },
  {
    kind: 'steeringEndsEarly',
    severity: 'mustFix',
    parts: ['steering box'],
    axle: () => withStops(30 * degrees, { sweep: [-50 * degrees, 20 * degrees] }),
    text: /^The steering box ends the turn to the left with 1\d\.\d° left to the steering stop of the driver knuckle/,
  },
  {
    kind: 'steeringEndsEarly',
    severity: 'mustFix',
    parts: ['assist ram'],
    axle: () => withRam({ closed: 20.5 }),
    text: /^The assist ram ends the turn to the (left|right) with \d+\.\d° left/,
  },
  {
    kind: 'ramMovesWithTravel',
    severity: 'watch',
    parts: ['assist ram'],
    axle: () =>
      withRam({
        body: { on: 'chassis', at: [4.25, -1.5, 20.25], diameter: 2 },
        closed: 12,
        stroke: 24,
      }),
    text: /^The assist ram is mounted on the chassis: with the steering held its length changes by up to /,
  },
  {
    kind: 'slop',
    severity: 'watch',
    parts: ['drag link'],
    axle: () => hungTieRod('studs'),
    text: /^The drag link can roll over its studs before it steers: \d+\.\d° of steer is slop: /,
  },
  {
    kind: 'slop',
    severity: 'watch',
    parts: ['assist ram'],
    axle: () => tieRodHeldByStuds(),
    text: /^The tie rod can roll over its studs where the assist ram holds it beside its line: the ram moves .* in before it pushes: /,
  },
  {
    kind: 'unstopped',
    severity: 'mustFix',
    parts: ['left coil', 'right coil'],
    axle: () => ({ ...faultless(), straps: [], shocks: [] }),
    text: /^Nothing stops the driver side and the passenger side going down: a limit strap, .* The walk goes to an assumed 5 down\. .* a strap of .* in between the seats of the coil/,
  },
  {
    kind: 'unstopped',
    severity: 'mustFix',
    parts: ['right shock'],
    axle: () => ({
      ...faultless(),
      bumpStops: bumpStops().slice(0, 1),
      coils: [],
      shocks: shocks({ shortest: 1, longest: 31 }),
    }),
    text: /^Nothing stops the passenger side going up: a bump stop is missing\. .* a bump stop that holds where the ends of the shock are /,
  },
  {
    kind: 'padSlidOff',
    severity: 'mustFix',
    parts: ['left bump stop'],
    axle: () => ({
      ...faultless(),
      bumpStops: [...bumpStops(0.2).slice(0, 1), ...bumpStops(3).slice(1)],
    }),
    text: /^The pad of the driver bump stop slides off its strike plane, .* in past its radius of 3\/16 in, and stops nothing there/,
  },
  {
    kind: 'rideOutsideRange',
    severity: 'mustFix',
    parts: ['left strap'],
    axle: () => {
      const axle = faultless();
      return { ...axle, straps: axle.straps.map((s, i) => (i === 0 ? { ...s, length: 13.5 } : s)) };
    },
    text: /^The stops do not allow ride height: limit strap tight \(driver strap\), .* in past it/,
  },
  {
    kind: 'rideOutsideRange',
    severity: 'mustFix',
    parts: ['left knuckle'],
    axle: () => {
      const axle = withStops(4 * degrees);
      const { steering } = axle;
      const tie = steering?.tieRods[0];
      if (!steering || !tie) throw new Error('the axle steers');
      const length = distance(tie.from.at, tie.to.at) + 1;
      return { ...axle, steering: { ...steering, tieRods: [{ ...tie, length }] } };
    },
    text: /^With the steering as drawn the wheels are past a stop at ride height: steering stop/,
  },
  {
    kind: 'noPose',
    severity: 'mustFix',
    parts: ['track bar'],
    axle: () => {
      const axle = withStops(30 * degrees, { sweep: null });
      return {
        ...axle,
        links: axle.links.map(l =>
          l.name === 'track bar' ? link('track bar', [3.5, -6.5, 25], [3.5, 0.5, 27]) : l,
        ),
        straps: [],
        driveline: null,
      };
    },
    text: /^Travel ends because the track bar reaches no further, before any stop holds: /,
  },
  {
    kind: 'noPose',
    severity: 'mustFix',
    parts: ['drag link'],
    axle: () => {
      const axle = withStops(85 * degrees, { sweep: null });
      return { ...axle, steering: axle.steering && { ...axle.steering, rams: [] } };
    },
    text: /^The steering goes over center before a stop holds: the .* reaches no further than \d+\.\d°: /,
  },
  {
    kind: 'rangeInPieces',
    severity: 'watch',
    also: ['padSlidOff'],
    parts: [],
    axle: () => ({
      ...faultless(),
      coils: [],
      shocks: shocks({ shortest: 13, longest: 29.75 }),
      bumpStops: bumpStops(0.32, { solidHeight: 1.5 }),
    }),
    text: /^What the stops allow falls into \d pieces/,
  },
  {
    kind: 'upTravelEnds',
    severity: 'watch',
    parts: ['right shock'],
    axle: () => {
      const axle = faultless();
      return { ...axle, shocks: axle.shocks.map((s, i) => (i === 1 ? { ...s, shortest: 22 } : s)) };
    },
    text: /^With both wheels, up-travel ends at 2 .* up: shock bottomed \(passenger shock\)\. A bump stop is to hold before/,
  },
  {
    kind: 'givenLength',
    severity: 'note',
    parts: ['upper link'],
    axle: () => equipped(jointed(adjusted(longArms(), 'upper link', 0.25))),
    text: /^With the upper link 1\/4 in longer than drawn, ride height is not as drawn: the axle stands .* (for|rear)ward/,
  },
  {
    kind: 'bracketRatesAssumed',
    severity: 'note',
    parts: ['left upper link'],
    axle: () => equipped(bushedArms()),
    text: /^How stiff the brackets are is assumed, .* as entered, .* if they are half as stiff, .* if twice: /,
  },
];

const clean = findingsOf(faultless());

test('a faultless axle has nothing to fix and nothing to watch, and two things to know', () => {
  expect(clean.map(({ kind, severity }) => `${severity} ${kind}`)).toEqual([
    'note upTravelEnds',
    'note droopEnds',
  ]);
  expect(clean[0]?.text).toMatch(
    /^With both wheels, up-travel ends at 4 15\/16 up: bump stop bottomed \(driver bump stop and passenger bump stop\)\. Without that: shock bottomed \(.*\) at .* up; /,
  );
});

describe.each(CAUSES)(
  '$kind of $parts',
  ({ kind, severity, parts, axle, build, text, also = [] }) => {
    const made = axle();
    const all = findingsOf(made, build);
    const found = all.filter(
      each => each.kind === kind && parts.every(part => each.parts.includes(part)),
    );

    test('appears once, as it should read', () => {
      expect(found.map(each => each.text)).toHaveLength(1);
      const [finding] = found;
      expect(finding?.severity).toBe(severity);
      expect(finding?.text).toMatch(text);
      expect(finding?.axle).toBe('front');
      // which end of a pair of things is the worst one is not told by the cause
      if (parts.length > 0) expect(finding?.parts).toEqual(expect.arrayContaining(parts));
      expect(Number.isFinite(finding?.amount.value)).toBe(true);
      expect(finding?.pose).toMatchObject({
        left_in: expect.any(Number),
        right_in: expect.any(Number),
      });
      expect(JSON.stringify(all)).not.toMatch(/NaN|Infinity|undefined|safe/);
    });

    test('is not there without its cause', () => {
      expect(clean.filter(each => each.kind === kind && each.severity === severity)).toEqual([]);
    });

    test('is the only thing to fix', () => {
      const fixes = all.filter(each => each.severity === 'mustFix' && !found.includes(each));
      // the same cause may tell of the other end, the other side or the other way too, and of nothing else
      expect(
        fixes
          .filter(each => each.kind !== kind && !also.includes(each.kind))
          .map(each => each.text),
      ).toEqual([]);
    });

    test('at a limit, its amount is what the limit lacks or has left at its pose', () => {
      const [finding] = found;
      const limit = limits.find(each => each.id === finding?.limit);
      if (!finding || !limit || limit.role !== 'mustNot') return;
      const { build: whole, model, axle: own } = opened(made, build);
      const { left_in, right_in, steer } = finding.pose;
      const { pose } = model.pose(left_in, right_in, (steer?.value ?? 0) * degrees);
      if (!pose) throw new Error('the finding names a pose that does not exist');
      const margins = limit
        .targets(own, whole)
        .filter(target => finding.parts.includes(target.part))
        .map(target => limit.margin(new MeasureContext(whole, own, model, pose), target) ?? 0);
      const least = Math.min(...margins) * (limit.unit === 'deg' ? 1 / degrees : 1);
      // solved again from ride height: 1e-9 in, and angles with it
      expect(finding.severity === 'mustFix' ? -least : least).toBeCloseTo(finding.amount.value, 6);
    });
  },
);

test('every kind that rules have is among these', () => {
  // told of the bands in their own test
  const made = new Set([
    'bandNotChecked',
    ...CAUSES.map(({ kind }) => kind),
    ...clean.map(({ kind }) => kind),
  ]);
  expect([...made].sort()).toEqual(rules.flatMap(({ kinds }) => kinds).sort());
});

test('a clocked rod has no slop, and a ram that rides with the axle does not move with travel', () => {
  expect(findingsOf(hungTieRod('clocked')).map(({ kind }) => kind)).not.toContain('slop');
  expect(clean.map(({ kind }) => kind)).not.toContain('ramMovesWithTravel');
});

test('a build in millimeters is told of in millimeters', () => {
  const [first] = findingsOf(faultless(), { unit: 'mm' });
  expect(first?.amount).toEqual(clean[0]?.amount);
  const mm = Math.round((first?.amount.value ?? 0) * 254) / 10;
  expect(first?.text).toContain(`With both wheels, up-travel ends at ${mm} up: `);
});

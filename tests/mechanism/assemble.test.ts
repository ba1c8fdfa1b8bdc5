import { describe, expect, test } from 'vitest';
import type { Axle, Vec3 } from '../../geometry/build/build.ts';
import { assemble } from '../../geometry/mechanism/assemble.ts';
import type { Mechanism } from '../../geometry/mechanism/mechanism.ts';
import {
  adjusted,
  chassisWishbone,
  FAMILIES,
  oneRadiusArm,
  radiusArms,
  triangulated,
  wishbone,
} from '../pose/families.ts';
import { frontSteering, longArms, modelOf, shortArms } from '../pose/layouts.ts';
import { distance, isExact } from '../pose/witness.ts';

const of = (axle: Axle): Mechanism => {
  const assembly = assemble(axle);
  if (!assembly.ok) throw new Error('not assembled');
  return assembly.mechanism;
};

test('four lengths are exact, more or bodies are not', () => {
  for (const [name, make] of Object.entries(FAMILIES)) {
    expect(of(make()).exact, name).toBe(isExact(make()));
  }
  expect(of(oneRadiusArm()).exact).toBe(false);
});

test('lengths: drawn from the points, free as given', () => {
  const axle = adjusted(triangulated(), 'left upper link', 0.375);
  const { lengths } = of(axle);
  for (const [i, l] of axle.links.entries()) {
    const drawn = distance(l.axle.at, l.chassis.at);
    expect(lengths.drawn[i]).toBeCloseTo(drawn, 13);
    const by = l.name === 'left upper link' ? 0.375 : 0;
    expect((lengths.free[i] as number) - drawn).toBeCloseTo(by, 12);
    expect([...lengths.axlePoints.slice(3 * i, 3 * i + 3)]).toEqual(
      l.axle.at.map((x, c) => x - (axle.origin[c] as number)),
    );
    expect([...lengths.chassisPoints.slice(3 * i, 3 * i + 3)]).toEqual([...l.chassis.at]);
  }
});

describe('wheels as drawn', () => {
  const spin = (toe: number, camber: number) => {
    const axle = longArms();
    const { left, right } = axle.knuckles as NonNullable<Axle['knuckles']>;
    const { wheels } = of({
      ...axle,
      knuckles: { left: { ...left, toe, camber }, right: { ...right, toe, camber } },
    });
    return wheels;
  };

  test('spin axes are leftward on both sides, unit, at the wheel centers', () => {
    const { left, right } = spin(0.01, -0.02);
    for (const w of [left, right]) {
      expect(Math.hypot(...w.spin)).toBeCloseTo(1, 14);
      expect(w.spin[1]).toBeGreaterThan(0.99);
    }
    expect(left.center).toEqual([0, 35.5, 0]);
    expect(right.center).toEqual([0, -35.5, 0]);
  });

  test('toe-in turns the left wheel right and the right one left (ISO 8855: positive toe-in)', () => {
    const { left, right } = spin(0.01, 0);
    const steer = (n: Vec3): number => Math.atan2(-n[0], n[1]);
    expect(steer(left.spin)).toBeCloseTo(-0.01, 14);
    expect(steer(right.spin)).toBeCloseTo(0.01, 14);
  });

  test('positive camber leans the tops outboard: the outboard spin axis dips', () => {
    const { left, right } = spin(0, 0.02);
    expect(Math.asin(-left.spin[2])).toBeCloseTo(0.02, 14);
    // outboard on the right is −spin
    expect(Math.asin(right.spin[2])).toBeCloseTo(0.02, 14);
  });
});

describe('named points', () => {
  test('every part’s ends are there once, on their bodies, where they were drawn', () => {
    for (const [name, make] of Object.entries(FAMILIES)) {
      const axle = make();
      const { named } = of(axle);
      expect(new Set(named.map(p => p.name)).size, name).toBe(named.length);
      const at = (key: string) => {
        const found = named.find(p => p.name === key);
        if (!found) throw new Error(`${name}: no ${key}`);
        return found;
      };
      for (const l of axle.links) {
        expect(at(l.axle.name).at).toEqual(l.axle.at);
        expect(at(l.chassis.name).at).toEqual(l.chassis.at);
      }
      for (const arm of axle.radiusArms) {
        for (const e of [...arm.axle, arm.chassis]) expect(at(e.name).on).toBe(arm.name);
      }
      const rods = [axle.steering?.dragLink, ...(axle.steering?.tieRods ?? [])].filter(r => !!r);
      for (const r of rods) {
        expect(at(`${r.name}.from`)).toMatchObject({ on: r.from.on, at: r.from.at });
        expect(at(`${r.name}.to`)).toMatchObject({ on: r.to.on, at: r.to.at });
      }
      for (const side of ['left', 'right'] as const) {
        expect(at(`${side} wheel.center`).on).toBe(axle.steered ? `${side} knuckle` : 'axle');
      }
    }
  });

  test('ends on a joint that gives ride on that joint', () => {
    const giving = of(wishbone(35_000)).named;
    expect(giving.find(p => p.name === 'left upper link.axle')?.on).toBe('upper ball');
    const rigid = of(wishbone(null)).named;
    expect(rigid.find(p => p.name === 'left upper link.axle')?.on).toBe('axle');
    const chassis = of(chassisWishbone()).named;
    expect(chassis.find(p => p.name === 'right lower link.chassis')?.on).toBe('lower ball');
  });

  test('at ride, nothing given, every point is where it was drawn', () => {
    for (const make of [longArms, shortArms, triangulated, radiusArms]) {
      const { ride } = modelOf(make());
      for (const { name, on, at } of ride.mechanism.named) {
        expect(distance(ride.point(on, at), at), name).toBeLessThan(1e-12);
      }
    }
  });

  test('rams and shocks are spans between bodies', () => {
    const axle: Axle = {
      ...longArms(),
      steering: {
        ...frontSteering(),
        rams: [
          {
            name: 'assist',
            kind: 'single',
            body: { on: 'axle', at: [4.25, -1.5, 20.25], diameter: 2 },
            axis: null,
            rod: { on: 'tie rod', at: [4.5, -24.25, 18.5] },
            closed: 18,
            stroke: 8,
            bore: 1.75,
            rodDiameter: 0.75,
          },
        ],
      },
      shocks: [
        {
          name: 'left shock',
          side: 'left',
          axle: [-5, 20.5, 17],
          chassis: [-6.5, 18, 41.5],
          shortest: 19.75,
          longest: 29.75,
          bodyEnd: 'chassis',
          body: { od: 2.5, length: null },
          shaft: { od: null },
          reservoir: null,
        },
      ],
    };
    const { spans } = of(axle);
    expect(spans.map(s => [s.name, s.kind, s.from.on, s.to.on])).toEqual([
      ['assist', 'ram', 'axle', 'tie rod'],
      ['left shock', 'shock', 'axle', 'chassis'],
    ]);
    // the worked example's ram: 22.82 in at straight ahead
    const { ride } = modelOf(axle);
    const [ram] = spans;
    if (!ram) throw new Error('no ram');
    const length = distance(ride.point(ram.from.on, ram.from.at), ride.point(ram.to.on, ram.to.at));
    expect(length).toBeCloseTo(22.82, 2);
  });
});

test('a radius arm’s joints: brackets’ halves, bolts and bores as drawn', () => {
  const axle = radiusArms();
  const { arms } = of(axle);
  expect(arms.map(arm => arm.name)).toEqual(['left radius arm', 'right radius arm']);
  for (const [k, arm] of arms.entries()) {
    const drawn = axle.radiusArms[k];
    if (!drawn) throw new Error('no arm');
    expect(arm.center).toEqual(drawn.chassis.at);
    for (const [i, joint] of arm.joints.entries()) {
      const e = [...drawn.axle, drawn.chassis][i];
      if (!e) throw new Error('no joint');
      expect(joint.on).toBe(i < 2 ? 'axle' : 'chassis');
      expect(joint.at).toEqual(e.at);
      const home =
        joint.on === 'axle' ? joint.home.map((x, c) => x + (axle.origin[c] as number)) : joint.home;
      expect(distance(home as unknown as Vec3, e.at)).toBeLessThan(1e-13);
      expect(joint.bolt).toEqual(e.bolt);
      expect(joint.bore).toEqual(e.bolt);
    }
  }
});

test('a radius arm’s joint without a rate gives at the assumed one, and without a bolt across Y', () => {
  const [joint] =
    of(radiusArms({ radial: null, axial: null, conical: null })).arms[0]?.joints ?? [];
  expect(joint).toMatchObject({ conical: 0 });
  expect(joint?.radial).toBeCloseTo(400_000, 6);
  expect(joint?.axial).toBeCloseTo(400_000, 6);
});

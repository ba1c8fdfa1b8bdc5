// @vitest-environment happy-dom
import { create } from '@react-three/test-renderer';
import { type Group, type Mesh, type Object3D, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import type { Pose } from '../../geometry/pose/pose.ts';
import { distance, type V3 } from '../../geometry/vector.ts';
import { AxleGraph } from '../../src/viewer/AxleGraph.tsx';
import { Materials } from '../../src/viewer/looks.ts';
import { Placed, type PoseSource } from '../../src/viewer/placed.ts';
import { shapesOf } from '../../src/viewer/shapes/shapes.ts';
import { plainShowing } from '../../src/viewer/showing.ts';
import { EXAMPLES, open } from './opened.ts';

declare global {
  // React's own switch for tests
  var IS_REACT_ACT_ENVIRONMENT: boolean;
}
globalThis.IS_REACT_ACT_ENVIRONMENT = true;

/** A source of poses that a test moves. */
class Hand implements PoseSource {
  #pose: Pose;
  readonly #hearers = new Set<() => void>();
  constructor(pose: Pose) {
    this.#pose = pose;
  }
  pose = (): Pose => this.#pose;
  subscribe = (hear: () => void) => {
    this.#hearers.add(hear);
    return () => void this.#hearers.delete(hear);
  };
  get heard(): number {
    return this.#hearers.size;
  }
  move(pose: Pose | null): void {
    if (!pose) throw new Error('the test asks for a pose that can be reached');
    this.#pose = pose;
    for (const hear of this.#hearers) hear();
  }
}

async function staged(example: string, hidden: readonly string[] = []) {
  const opened = open(example);
  const { build, axle, parts, model } = opened;
  const hand = new Hand(model.ride);
  const renderer = await create(
    <AxleGraph
      shapes={shapesOf(build, axle, parts)}
      placed={new Placed(parts)}
      poses={hand}
      materials={new Materials('light', axle.origin[0])}
      showings={parts.map(part => (hidden.includes(part.name) ? null : plainShowing(part, axle)))}
    />,
  );
  const root = renderer.scene.children[0]?.instance as unknown as Group;
  const named = (name: string): Object3D => {
    const found = root.getObjectByName(name);
    if (!found) throw new Error(`nothing is called ${name}`);
    return found;
  };
  const move = async (left: number, right: number, steer = 0): Promise<Pose> => {
    const { pose } = model.near(model.ride, left, right, steer);
    hand.move(pose);
    await renderer.advanceFrames(1, 0.016);
    root.updateMatrixWorld(true);
    return hand.pose();
  };
  root.updateMatrixWorld(true);
  return { ...opened, hand, renderer, root, named, move };
}

const placeOf = (object: Object3D): V3 => {
  const { x, y, z } = object.getWorldPosition(new Vector3());
  return [x, y, z];
};

/** Matrices are double precision: what is left is rounding of a few sums of 100 in, and links' stretch. */
const SAME = 1e-6;

describe.each(EXAMPLES)('the graph of %s', example => {
  it('has one object a part, named as the part is', async () => {
    const { root, parts, renderer } = await staged(example);
    expect(root.children.map(({ name }) => name)).toEqual(parts.map(({ name }) => name));
    await renderer.unmount();
  });

  it('stands rod ends and joints where the pose has them', async () => {
    const { axle, named, move, renderer } = await staged(example);
    const steer = axle.steered && axle.steering?.box ? 0.2 : 0;
    const pose = await move(1.5, -1, steer);
    for (const link of axle.links) {
      for (const [end, body] of [
        [link.axle, 'axle'],
        [link.chassis, 'chassis'],
      ] as const) {
        // where a shared joint gives, the end rides on the joint
        const gives = pose.mechanism.points.some(({ name }) => name === end.shared);
        const wanted = pose.point(gives && end.shared ? end.shared : body, end.at);
        expect(distance(placeOf(named(end.name)), wanted), end.name).toBeLessThan(SAME);
      }
    }
    const rods = [axle.steering?.dragLink, ...(axle.steering?.tieRods ?? [])];
    for (const rod of rods) {
      if (!rod) continue;
      for (const key of ['from', 'to'] as const) {
        const wanted = pose.point(rod.name, rod[key].at);
        expect(distance(placeOf(named(`${rod.name}.${key}`)), wanted)).toBeLessThan(SAME);
      }
    }
    await renderer.unmount();
  });
});

describe('the graph of long-arm-front', () => {
  it('winds each coil to the distance of its seats', async () => {
    const { axle, named, move, renderer } = await staged('long-arm-front');
    for (const [left, right] of [
      [3, 3],
      [-3, -2],
    ] as const) {
      const pose = await move(left, right);
      for (const coil of axle.coils) {
        const [a, b] = [pose.point('axle', coil.axle), pose.point('chassis', coil.chassis)];
        const mesh = named(coil.name).getObjectByName('look coil') as Mesh;
        const at = mesh.geometry.getAttribute('position');
        const u = b.map((each, i) => (each - (a[i] as number)) / distance(a, b)) as unknown as V3;
        let [low, high] = [Infinity, -Infinity];
        const point = new Vector3();
        for (let i = 0; i < at.count; i++) {
          point.fromBufferAttribute(at, i).applyMatrix4(mesh.matrixWorld);
          const along = (point.x - a[0]) * u[0] + (point.y - a[1]) * u[1] + (point.z - a[2]) * u[2];
          low = Math.min(low, along);
          high = Math.max(high, along);
        }
        // positions are single precision
        expect(low).toBeCloseTo(0, 3);
        expect(high).toBeCloseTo(distance(a, b), 3);
      }
    }
    await renderer.unmount();
  });

  it('slides the driveshaft: both halves keep their length, each at its own joint', async () => {
    const { axle, named, move, renderer } = await staged('long-arm-front');
    const pose = await move(-4, -4);
    const line = axle.driveline;
    if (!line) throw new Error('the example has a driveshaft');
    const shaft = named('driveshaft');
    for (const [name, joint, on] of [
      ['held 0', line.pinion.joint, 'axle'],
      ['held 1', line.transferCase.joint, 'chassis'],
    ] as const) {
      const half = shaft.getObjectByName(name) as Object3D;
      const at = new Vector3(...joint).applyMatrix4(half.matrixWorld);
      expect(distance([at.x, at.y, at.z], pose.point(on, joint))).toBeLessThan(SAME);
      // a turn alone: no stretch
      expect(half.matrixWorld.determinant()).toBeCloseTo(1, 9);
    }
    await renderer.unmount();
  });

  it('hides what is to be hidden', async () => {
    const { named, renderer } = await staged('long-arm-front', ['track bar']);
    expect(named('track bar').visible).toBe(false);
    expect(named('drag link').visible).toBe(true);
    await renderer.unmount();
  });

  it('hears no more poses once it is gone', async () => {
    const { hand, renderer } = await staged('long-arm-front');
    expect(hand.heard).toBe(1);
    await renderer.unmount();
    expect(hand.heard).toBe(0);
  });
});

/**
 * Ground clearance under parts: how far a part's lowest point stands over the ground plane of the axle, which goes
 * through both straight-ahead contact points and contains chassis X. The other axle is taken to move alike.
 */
import { furthest } from '../cycle/edge.ts';
import type { AxleWalk } from '../cycle/walkReport.ts';
import { groundNormal, groundPoint } from '../measure/ground.ts';
import type { Pose } from '../pose/pose.ts';
import { type Placement, unmoved } from '../solid/placement.ts';
import type { Solid } from '../solid/solid.ts';
import { reach as reachOf } from '../solid/support.ts';
import { NODE_SIZE, type TriangleMesh } from '../solid/triangleMesh.ts';
import { dot, type V3 } from '../vector.ts';
import type { Part } from './part.ts';
import { placePart } from './place.ts';

export interface Clearance {
  part: Part;
  /** In, straight ahead. */
  ride: number;
  /** With both wheels as far up as they go together; null where there is no such pose. */
  stuffed: number | null;
  /** Over the coarse cycle, straight ahead, with its pose. */
  least: { value: number; pose: Pose };
}

/** Heights that differ by no more than a solver's last digits, in. */
const ALIKE_in = 1e-6;

/** Height of a part's lowest point over the axle's ground plane at a pose, in. */
export function groundClearance(part: Part, pose: Pose, scratch: Placement = unmoved()): number {
  placePart(part, pose, scratch);
  const n = groundNormal(pose);
  return -farthest(part.solid, scratch, [-n[0], -n[1], -n[2]]) - dot(n, groundPoint(pose));
}

/** Clearance under each part but tires and wheels, lowest first. */
export function clearancesOf(
  { grid, range, reach, model }: Pick<AxleWalk, 'grid' | 'range' | 'reach' | 'model'>,
  parts: readonly Part[],
): Clearance[] {
  const up = range.holdsRide ? furthest(reach, [0, 0], [1, 1]) : null;
  const stuffed = up && reach.travel(up.left, up.right).pose;
  const poses = [model.ride, ...(stuffed ? [stuffed] : [])];
  for (const { straight } of grid.places) if (straight) poses.push(straight);
  const scratch = unmoved();
  return parts
    .filter(part => part.kind !== 'tire' && part.kind !== 'wheel')
    .map((part): Clearance => {
      let least = { value: Number.POSITIVE_INFINITY, pose: model.ride };
      for (const pose of poses) {
        const value = groundClearance(part, pose, scratch);
        // what rides on the axle keeps its height: then ride height tells it
        if (value < least.value - ALIKE_in) least = { value, pose };
      }
      return {
        part,
        ride: groundClearance(part, model.ride, scratch),
        stuffed: stuffed ? groundClearance(part, stuffed, scratch) : null,
        least,
      };
    })
    .sort((a, b) => a.ride - b.ride);
}

/** max n·p over a placed solid, in. */
function farthest(solid: Solid, place: Placement, n: V3): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const piece of solid.pieces) most = Math.max(most, reachOf(piece, place, ...n));
  return solid.mesh ? Math.max(most, farthestOfMesh(solid.mesh, place, n)) : most;
}

/** Down the tree of the mesh, past all nodes that reach no further than what was found. */
function farthestOfMesh(mesh: TriangleMesh, place: Placement, n: V3): number {
  const { nodes, links, positions, triangles } = mesh;
  // the direction in the frame of the body
  const inBody = [0, 1, 2].map(
    c =>
      (place[c] as number) * n[0] +
      (place[3 + c] as number) * n[1] +
      (place[6 + c] as number) * n[2],
  ) as unknown as V3;
  const shift = [0, 1, 2].reduce((sum, c) => sum + (place[9 + c] as number) * (n[c] as number), 0);
  let most = Number.NEGATIVE_INFINITY;
  const look = (node: number): void => {
    const at = NODE_SIZE * node;
    let bound = 0;
    for (let c = 0; c < 3; c++) {
      bound += (nodes[at + c] as number) * (inBody[c] as number);
      bound += (nodes[at + 3 + c] as number) * Math.abs(inBody[c] as number);
    }
    if (bound <= most) return;
    const count = links[2 * node + 1] as number;
    if (count === 0) {
      look(node + 1);
      look(links[2 * node] as number);
      return;
    }
    const first = links[2 * node] as number;
    for (let i = 3 * first; i < 3 * (first + count); i++) {
      const v = 3 * (triangles[i] as number);
      let along = 0;
      for (let c = 0; c < 3; c++) along += (positions[v + c] as number) * (inBody[c] as number);
      most = Math.max(most, along);
    }
  };
  look(0);
  return most + shift;
}

/** Marks what touches: the lugs nearest to the spot, and the smaller part of the two. */
import { useFrame, useThree } from '@react-three/fiber';
import { useRef } from 'react';
import { type InstancedMesh, type Object3D, Vector3 } from 'three';
import type { Part } from '../../geometry/gap/part.ts';
import { colorCopies, markCopies } from './copies.ts';
import type { Theme } from './looks.ts';
import type { Spot, Spots } from './marks/spots.ts';
import type { Placed } from './placed.ts';

export interface TouchMarkerProps {
  spots: Spots;
  /** The spot of the chosen finding. */
  chosen: Spot | null;
  placed: Placed;
  theme: Theme;
  /** Told which part is to be marked as a whole, when that changes. */
  onTouching: (part: string | null) => void;
}

/** Lugs whose middle is this near are marked, in. */
const REACH_in = 3.6;
const local = new Vector3();

/** Radius of the largest ball in a part: a rod is smaller than what it hits, however long it is. */
const thickness = ({ solid }: Part): number =>
  solid.mesh
    ? (solid.bound[3] as number)
    : Math.max(...solid.pieces.map(piece => piece.inner[3] as number));

/** The part that is marked as a whole: the slimmer one; a tire is marked by its lugs. */
export function smaller({ pair }: Spot): Part {
  const { a, b } = pair;
  if (a.kind === 'tire') return b;
  if (b.kind === 'tire') return a;
  return thickness(a) <= thickness(b) ? a : b;
}

export function TouchMarker({ spots, chosen, placed, theme, onTouching }: TouchMarkerProps) {
  const scene = useThree(state => state.scene);
  const last = useRef({
    version: -1,
    chosen: null as Spot | null,
    theme,
    part: null as string | null,
  });
  useFrame(() => {
    const seen = last.current;
    spots.update(placed);
    if (seen.version === placed.version && seen.chosen === chosen && seen.theme === theme) return;
    if (seen.chosen && seen.chosen !== chosen) unmark(scene, seen.chosen, theme);
    seen.version = placed.version;
    seen.chosen = chosen;
    seen.theme = theme;
    const touches = chosen?.isNear === true && chosen.gap < 0;
    const part = chosen && touches ? smaller(chosen).name : null;
    if (part !== seen.part) {
      seen.part = part;
      onTouching(part);
    }
    if (!chosen) return;
    if (touches) mark(scene, chosen, placed, theme);
    else unmark(scene, chosen, theme);
  }, 0);
  return null;
}

function mark(scene: Object3D, spot: Spot, placed: Placed, theme: Theme): void {
  for (const part of [spot.pair.a, spot.pair.b]) {
    if (part.kind !== 'tire') continue;
    const n = placed.places[placed.indexOf(part.name)] as Float64Array;
    const { middle } = spot;
    const x = middle.x - (n[9] as number);
    const y = middle.y - (n[10] as number);
    const z = middle.z - (n[11] as number);
    // back into the tire's own frame: the placement's turn, transposed
    local.set(
      (n[0] as number) * x + (n[3] as number) * y + (n[6] as number) * z,
      (n[1] as number) * x + (n[4] as number) * y + (n[7] as number) * z,
      (n[2] as number) * x + (n[5] as number) * y + (n[8] as number) * z,
    );
    eachLugs(scene, part, mesh => markCopies(mesh, 'lug', theme, local, REACH_in));
  }
}

function unmark(scene: Object3D, spot: Spot, theme: Theme): void {
  for (const part of [spot.pair.a, spot.pair.b]) {
    if (part.kind === 'tire') eachLugs(scene, part, mesh => colorCopies(mesh, 'lug', theme));
  }
}

function eachLugs(scene: Object3D, part: Part, say: (mesh: InstancedMesh) => void): void {
  scene.getObjectByName(part.name)?.traverse(object => {
    if ((object as InstancedMesh).isInstancedMesh) say(object as InstancedMesh);
  });
}

/** Writes where the marks are, as frames are drawn. */
import { useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { carry, type Placed } from '../placed.ts';
import type { ConstructionLine } from './construction.ts';
import type { Label } from './labels.ts';
import { project, type Seen } from './project.ts';
import { type Box, settle } from './settle.ts';
import type { Spot, Spots } from './spots.ts';

export interface MarkDriverProps {
  svg: RefObject<SVGSVGElement | null>;
  placed: Placed;
  labels: readonly Label[];
  spots: Spots;
  chosen: Spot | null;
  lines: readonly ConstructionLine[];
  /** A gap as it is written. */
  words: (inches: number) => string;
  /** Where the line to the section ends: its rectangle, px in the picture; null where there is none. */
  section: () => { left: number; top: number; right: number; bottom: number } | null;
}

export function MarkDriver(props: MarkDriverProps) {
  const { svg, placed, labels, spots, chosen, lines, words, section } = props;
  const invalidate = useThree(state => state.invalidate);
  const boxes = useMemo(() => labels.map(emptyBox), [labels]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a frame for each change of what is marked
  useEffect(() => invalidate(), [labels, spots, chosen, lines, invalidate]);

  const groups = useRef<{ lines: Element[]; spots: Element[]; labels: Element[] }>(NO_GROUPS);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the groups are made anew with what they show
  useLayoutEffect(() => {
    const all = (name: string): Element[] => [...(svg.current?.querySelectorAll(name) ?? [])];
    groups.current = {
      lines: all('.mark-line'),
      spots: all('.mark-spot'),
      labels: all('.mark-label'),
    };
  }, [svg, labels, spots, lines]);

  useFrame(({ camera, size }) => {
    const { lines: lineGroups, spots: spotGroups, labels: labelGroups } = groups.current;
    camera.updateMatrixWorld();
    const { width, height } = size;
    spots.update(placed);
    for (let i = 0; i < lines.length; i++) {
      const g = lineGroups[i];
      if (g) writeLine(g, lines[i] as ConstructionLine, camera, width, height);
    }
    for (let i = 0; i < spots.spots.length; i++) {
      const spot = spots.spots[i] as Spot;
      const g = spotGroups[i];
      if (!g) continue;
      project(camera, width, height, spot.a, from);
      project(camera, width, height, spot.b, to);
      project(camera, width, height, spot.middle, seen);
      writeSpot(g, spot, spot === chosen, words, section);
    }
    for (let i = 0; i < labels.length; i++) {
      const label = labels[i] as Label;
      const box = boxes[i] as Box;
      const place = placed.places[placed.indexOf(label.part)];
      box.isShown = false;
      if (!place) continue;
      carry(place, label.at, point);
      project(camera, width, height, point, seen);
      box.x = seen.x;
      box.y = seen.y - 16;
      const inside = seen.x > 20 && seen.x < width - 20 && seen.y > 24 && seen.y < height - 8;
      box.isShown = seen.isBefore && inside;
    }
    writeLabels(labelGroups, labels, boxes);
  }, 0);
  return null;
}

const point = { x: 0, y: 0, z: 0 };
const seen: Seen = { x: 0, y: 0, isBefore: true };
const from: Seen = { x: 0, y: 0, isBefore: true };
const to: Seen = { x: 0, y: 0, isBefore: true };

const emptyBox = (): Box => ({ x: 0, y: 0, width: 0, height: 17, at: 0, isShown: false });

const NO_GROUPS = { lines: [], spots: [], labels: [] };

function writeLabels(
  groups: readonly Element[],
  labels: readonly Label[],
  boxes: readonly Box[],
): void {
  for (let i = 0; i < labels.length; i++) {
    const box = boxes[i] as Box;
    const text = groups[i]?.querySelector('text');
    // measured once: type does not change its width
    if (text && box.width === 0) box.width = text.getComputedTextLength() + 10;
  }
  settle(boxes);
  for (let i = 0; i < labels.length; i++) {
    const [g, box] = [groups[i], boxes[i] as Box];
    if (!g) continue;
    g.setAttribute('visibility', box.isShown ? 'visible' : 'hidden');
    if (!box.isShown) continue;
    const away = box.at - (box.y + 16);
    g.setAttribute('transform', `translate(${box.x.toFixed(1)} ${(box.y + 16).toFixed(1)})`);
    g.children[0]?.setAttribute('d', `M0 0V${(away + (away < 0 ? 8 : -8)).toFixed(1)}`);
    g.children[2]?.setAttribute('y', away.toFixed(1));
  }
}

function writeLine(
  g: Element,
  line: ConstructionLine,
  camera: Parameters<typeof project>[0],
  width: number,
  height: number,
): void {
  const at = (p: ConstructionLine['at'], out: Seen): void => {
    point.x = p[0];
    point.y = p[1];
    point.z = p[2];
    project(camera, width, height, point, out);
  };
  at(line.from, from);
  at(line.to, to);
  at(line.at, seen);
  const isShown = from.isBefore && to.isBefore;
  g.setAttribute('visibility', isShown ? 'visible' : 'hidden');
  if (!isShown) return;
  const d = `M${from.x.toFixed(1)} ${from.y.toFixed(1)}L${to.x.toFixed(1)} ${to.y.toFixed(1)}`;
  g.children[0]?.setAttribute('d', d);
  g.children[1]?.setAttribute('d', d);
  for (const i of [2, 3]) {
    g.children[i]?.setAttribute(
      'transform',
      `translate(${seen.x.toFixed(1)} ${seen.y.toFixed(1)})`,
    );
  }
}

/** From where on a dimension line is long enough to be one, px. */
const LEAST_px = 14;

function writeSpot(
  g: Element,
  spot: Spot,
  isChosen: boolean,
  words: (inches: number) => string,
  section: MarkDriverProps['section'],
): void {
  const isShown = spot.isNear && seen.isBefore && (isChosen || spot.share < 2);
  g.setAttribute('visibility', isShown ? 'visible' : 'hidden');
  if (!isShown) return;
  g.setAttribute('data-tone', spot.share < 0 ? 'touch' : spot.share < 1 ? 'close' : 'clear');
  const [x, y] = [seen.x, seen.y];
  for (const i of [2, 3, 4]) {
    g.children[i]?.setAttribute('cx', x.toFixed(1));
    g.children[i]?.setAttribute('cy', y.toFixed(1));
  }
  const rect = isChosen ? section() : null;
  let d = '';
  if (rect) {
    // from the ring to the nearest point of the section's frame
    const tx = Math.min(rect.right, Math.max(rect.left + 30, x));
    const ty = Math.min(rect.bottom, Math.max(rect.top, y));
    const length = Math.hypot(tx - x, ty - y);
    if (length > 24) {
      const share = 17 / length;
      d = `M${(x + (tx - x) * share).toFixed(1)} ${(y + (ty - y) * share).toFixed(1)}L${tx.toFixed(1)} ${ty.toFixed(1)}`;
    }
  } else if (Math.hypot(to.x - from.x, to.y - from.y) > LEAST_px) d = dimension();
  g.children[0]?.setAttribute('d', d);
  g.children[1]?.setAttribute('d', d);
  const text = g.children[5];
  if (!text) return;
  text.setAttribute('x', x.toFixed(1));
  text.setAttribute('y', (y - (isChosen ? 25 : 12)).toFixed(1));
  const says = rect ? '' : words(spot.gap);
  if (text.textContent !== says) text.textContent = says;
}

/** A line between both points with a bar at each end. */
function dimension(): string {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = Math.hypot(dx, dy);
  const [nx, ny] = [(-dy / length) * 5, (dx / length) * 5];
  const bar = (p: Seen): string =>
    `M${(p.x - nx).toFixed(1)} ${(p.y - ny).toFixed(1)}L${(p.x + nx).toFixed(1)} ${(p.y + ny).toFixed(1)}`;
  return `${bar(from)}M${from.x.toFixed(1)} ${from.y.toFixed(1)}L${to.x.toFixed(1)} ${to.y.toFixed(1)}${bar(to)}`;
}

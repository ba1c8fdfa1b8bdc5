/** Writes where the marks are, as frames are drawn. */
import { useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import type { Camera } from 'three';
import type { V3 } from '../../../geometry/vector.ts';
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
  // spots first, then lines, then names: the later ones give way
  const boxes = useMemo(
    () => [...spots.spots, ...lines, ...labels].map(emptyBox),
    [spots, lines, labels],
  );
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
    let next = 0;
    for (let i = 0; i < spots.spots.length; i++) {
      const spot = spots.spots[i] as Spot;
      const box = boxes[next++] as Box;
      const g = spotGroups[i];
      box.isShown = false;
      if (!g) continue;
      project(camera, width, height, spot.a, from);
      project(camera, width, height, spot.b, to);
      project(camera, width, height, spot.middle, seen);
      writeSpot(g, spot, spot === chosen, words, section, box);
    }
    for (let i = 0; i < lines.length; i++) {
      const box = boxes[next++] as Box;
      const g = lineGroups[i];
      box.isShown = false;
      if (g) writeLine(g, lines[i] as ConstructionLine, camera, width, height, box);
    }
    for (let i = 0; i < labels.length; i++) {
      const label = labels[i] as Label;
      const box = boxes[next++] as Box;
      const place = placed.places[placed.indexOf(label.part)];
      box.isShown = false;
      if (!place) continue;
      carry(place, label.at, point);
      project(camera, width, height, point, seen);
      const inside = seen.x > 20 && seen.x < width - 20 && seen.y > 24 && seen.y < height - 8;
      want(box, labelGroups[i], seen.isBefore && inside);
    }
    settle(boxes);
    next = 0;
    for (let i = 0; i < spots.spots.length; i++) writeText(spotGroups[i], boxes[next++] as Box);
    for (let i = 0; i < lines.length; i++) writeText(lineGroups[i], boxes[next++] as Box);
    for (let i = 0; i < labels.length; i++) writeLabel(labelGroups[i], boxes[next++] as Box);
  }, 0);
  return null;
}

const NO_GROUPS = { lines: [], spots: [], labels: [] };
const point = { x: 0, y: 0, z: 0 };
const seen: Seen = { x: 0, y: 0, isBefore: true };
const from: Seen = { x: 0, y: 0, isBefore: true };
const to: Seen = { x: 0, y: 0, isBefore: true };

/** Over its point, px. */
const OVER = 16;
const emptyBox = (): Box => ({ x: 0, y: 0, width: 0, height: 17, at: 0, isShown: false });

/** Says where a text wants to be: over the point that was projected last. */
function want(box: Box, g: Element | undefined, isShown: boolean, over = OVER): void {
  box.x = seen.x;
  box.y = seen.y - over;
  box.isShown = isShown;
  if (!isShown || box.width > 0) return;
  // measured once: names do not change their width
  const text = g?.querySelector('text');
  if (text) box.width = text.getComputedTextLength() + 10;
}

const px = (n: number): string => n.toFixed(1);

function writeText(g: Element | undefined, box: Box): void {
  const text = g?.querySelector('text');
  if (!text) return;
  text.setAttribute('visibility', box.isShown ? 'inherit' : 'hidden');
  text.setAttribute('x', px(box.x));
  text.setAttribute('y', px(box.at + 4));
}

function writeLabel(g: Element | undefined, box: Box): void {
  if (!g) return;
  g.setAttribute('visibility', box.isShown ? 'visible' : 'hidden');
  if (!box.isShown) return;
  const away = box.at - (box.y + OVER);
  g.setAttribute('transform', `translate(${px(box.x)} ${px(box.y + OVER)})`);
  g.children[0]?.setAttribute('d', `M0 0V${px(away + (away < 0 ? 8 : -8))}`);
  g.children[2]?.setAttribute('y', px(away));
}

/** How near to the edge of the picture the name of a line may stand, px. */
const EDGE = 34;

function writeLine(
  g: Element,
  line: ConstructionLine,
  camera: Camera,
  width: number,
  height: number,
  box: Box,
): void {
  see(camera, width, height, line.from, from);
  see(camera, width, height, line.to, to);
  const isShown = from.isBefore && to.isBefore;
  g.setAttribute('visibility', isShown ? 'visible' : 'hidden');
  if (!isShown) return;
  const d = `M${px(from.x)} ${px(from.y)}L${px(to.x)} ${px(to.y)}`;
  g.children[0]?.setAttribute('d', d);
  g.children[1]?.setAttribute('d', d);
  see(camera, width, height, line.at, seen);
  g.children[2]?.setAttribute('cx', px(seen.x));
  g.children[2]?.setAttribute('cy', px(seen.y));
  // where the point itself is out of the picture, the name goes as far along the line as can be seen
  const isIn = (): boolean =>
    seen.x > EDGE && seen.x < width - EDGE && seen.y > EDGE && seen.y < height - EDGE;
  for (let k = STEPS; k >= 0 && !isIn(); k--) {
    seen.x = from.x + ((to.x - from.x) * k) / STEPS;
    seen.y = from.y + ((to.y - from.y) * k) / STEPS;
  }
  want(box, g, isIn());
}

const STEPS = 24;

function see(camera: Camera, width: number, height: number, [x, y, z]: V3, out: Seen): void {
  point.x = x;
  point.y = y;
  point.z = z;
  project(camera, width, height, point, out);
}

/** From where on a dimension line is long enough to be one, px. */
const LEAST_px = 14;
const RING_px = 17;

function writeSpot(
  g: Element,
  spot: Spot,
  isChosen: boolean,
  words: (inches: number) => string,
  section: MarkDriverProps['section'],
  box: Box,
): void {
  const isShown = spot.isNear && seen.isBefore && (isChosen || spot.share < 1);
  g.setAttribute('visibility', isShown ? 'visible' : 'hidden');
  if (!isShown) return;
  g.setAttribute('data-tone', spot.share < 0 ? 'touch' : spot.share < 1 ? 'close' : 'clear');
  for (let i = 2; i < 6; i++) {
    g.children[i]?.setAttribute('cx', px(seen.x));
    g.children[i]?.setAttribute('cy', px(seen.y));
  }
  const rect = isChosen ? section() : null;
  let d = '';
  if (rect) d = leader(rect);
  else if (Math.hypot(to.x - from.x, to.y - from.y) > LEAST_px) d = dimension();
  g.children[0]?.setAttribute('d', d);
  g.children[1]?.setAttribute('d', d);
  // the section has the amount already
  writeAmount(g, rect ? '' : words(spot.gap), box);
  want(box, g, rect === null, isChosen ? RING_px + 11 : OVER);
}

const TAPE = /\d+\/\d+/;

/** Writes an amount, its fraction in small figures. */
function writeAmount(g: Element, says: string, box: Box): void {
  if (g.getAttribute('data-says') === says) return;
  g.setAttribute('data-says', says);
  box.width = 0;
  const fraction = TAPE.exec(says);
  const [before, of, after] = g.querySelectorAll('tspan');
  if (!before || !of || !after) return;
  before.textContent = fraction ? says.slice(0, fraction.index).trimEnd() : says;
  of.textContent = fraction?.[0] ?? '';
  after.textContent = fraction ? says.slice(fraction.index + fraction[0].length) : '';
}

/** From the ring to the nearest point of the section's frame. */
function leader({
  left,
  top,
  right,
  bottom,
}: NonNullable<ReturnType<MarkDriverProps['section']>>): string {
  const { x, y } = seen;
  const tx = Math.min(right, Math.max(left + 30, x));
  const ty = Math.min(bottom, Math.max(top, y));
  const length = Math.hypot(tx - x, ty - y);
  if (length < 1.5 * RING_px) return '';
  const share = RING_px / length;
  return `M${px(x + (tx - x) * share)} ${px(y + (ty - y) * share)}L${px(tx)} ${px(ty)}`;
}

/** A line between both points with a bar at each end. */
function dimension(): string {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = Math.hypot(dx, dy);
  const [nx, ny] = [(-dy / length) * 5, (dx / length) * 5];
  const bar = (p: Seen): string =>
    `M${px(p.x - nx)} ${px(p.y - ny)}L${px(p.x + nx)} ${px(p.y + ny)}`;
  return `${bar(from)}M${px(from.x)} ${px(from.y)}L${px(to.x)} ${px(to.y)}${bar(to)}`;
}

/** Which parameters a pair of parts is looked at in, and from where to where they go. PROOF.md, (6). */
import type { EdgePoint } from '../cycle/edge.ts';
import type { Range } from '../cycle/range.ts';
import type { Reach, SteerInterval } from '../cycle/reach.ts';
import { knuckleStops } from '../limit/steering.ts';
import { rodsOf, rollingAt, rollingPart } from '../measure/rolling.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Pose } from '../pose/pose.ts';
import type { Frame, Parameters, Side } from './cellBodies.ts';
import { type Cell, halvesOf, wholeCell } from './cells.ts';
import { spreadOf } from './forms.ts';
import type { Pair } from './pairs.ts';
import type { Part, PartRoll } from './part.ts';
import { isHeld, rollRange } from './roll.ts';
import { type Dependence, type Extent, Space, Travels } from './space.ts';
import { type FewerStops, type Margins, StopMargins } from './stopMargins.ts';

/** A space with its stops. */
export interface Searched {
  space: Space;
  stops: StopMargins;
}

/** Added to a travel's extent, in: what the edge may bulge between its points. */
const AROUND_in = 2e-3;
/** Added to a knuckle's own stops, rad: rounding. */
const AROUND = 1e-9;
/** Share by which the sampled ends of the steering input are taken wider, before what is beyond is ruled out. */
const WIDER = [0.06, 0.15, 0.4];
/** Most cells that are asked how far a knuckle turns. */
const MOST_ASKED = 12_000;
/** Share by which the sampled window of a rod's roll is taken wider. */
const ROLL_WIDER = 0.05;
/** Furthest knuckle turn that is looked for where a stop is missing, rad, and the steps. */
const FURTHEST = 1.3;
const STEP = 0.02;

/** Whether the parameters hold every roll of a part that is free to roll. */
function isCovered({ motion }: Part, { third }: Parameters): boolean {
  return (
    third?.kind === 'turn' && motion.kind === 'rigid' && motion.body === `${third.side} knuckle`
  );
}

/** Bodies that a part rides on. */
export function bodiesOf({ motion: m }: Part): string[] {
  if (m.kind === 'rigid') return [m.body];
  return m.kind === 'ends' ? [m.from.on, m.to.on] : [m.at.on, m.towards.on];
}

export class Spaces {
  readonly #reach: Reach;
  readonly #range: Range;
  readonly #m: Mechanism;
  readonly travels: Travels;
  readonly #made = new Map<string, Searched | null>();
  #input: Extent | null | undefined;
  readonly #alone: Searched;

  constructor(range: Range, reach: Reach) {
    this.#reach = reach;
    this.#range = range;
    this.#m = reach.model.mechanism;
    const extent = (of: (p: { left: number; right: number }) => number): Extent => {
      const values = range.edge.map(of);
      const low = Math.min(...values) - AROUND_in;
      return { low, size: Math.max(...values) + AROUND_in - low };
    };
    this.travels = new Travels(reach.model, [extent(p => p.left), extent(p => p.right)]);
    const space = new Space(this.travels, { third: null, travels: true }, 'chassis', null);
    this.#alone = { space, stops: new StopMargins(space, reach, []) };
  }

  get #travelStops(): FewerStops[] {
    return [{ stops: this.#alone.stops, of: [0, 1] }];
  }

  /** The spaces in which a pair may be proved, the one of fewest parameters first. */
  of(pair: Pair): Searched[] {
    const out: Searched[] = [];
    const rolling = [pair.a, pair.b].filter(part => part.roll && !isHeld(part.roll));
    for (const byTurn of [true, false]) {
      const { parameters, frame } = this.#parametersOf(pair, byTurn);
      let roll: PartRoll | null = null;
      // a rod that is free to roll moves a knuckle about its kingpin axis only: its turn holds all of that
      if (!rolling.every(part => isCovered(part, parameters))) {
        roll = rolling[0]?.roll ?? null;
        // one roll beside travels and steering; two are not looked at yet
        if (!roll || rolling.some(part => part.roll?.of !== roll?.of)) continue;
        // what hangs on a rod that rolls is known by the input alone
        if (roll.by === 'rod' && parameters.third?.kind !== 'input') continue;
        if (!parameters.travels) continue;
      }
      const found = this.#space(parameters, frame, roll);
      if (found && !out.includes(found)) out.push(found);
    }
    return out;
  }

  #parametersOf(pair: Pair, byTurn: boolean): { parameters: Parameters; frame: Frame } {
    const m = this.#m;
    const { steering } = m;
    const all = [pair.a, pair.b].map(bodiesOf);
    const bodies = new Set(all.flat());
    const stands = (body: string): boolean => this.#isNative(body, 'chassis');
    const rides = (body: string): boolean => this.#isNative(body, 'axle');
    const frame: Frame = all.some(of => of.every(stands))
      ? 'chassis'
      : all.some(of => of.every(rides))
        ? 'axle'
        : 'chassis';
    // in the frame's own bodies nothing moves by travel
    const byTravel = [...bodies].some(body => (frame === 'chassis' ? !stands(body) : !rides(body)));
    const turning = [...bodies].filter(body => this.#turns(body));
    let third: Parameters['third'] = null;
    let byInput = false;
    if (steering && turning.length > 0) {
      const sides = turning.map(body =>
        body === 'left knuckle' ? 'left' : body === 'right knuckle' ? 'right' : null,
      );
      const [only] = sides;
      if (byTurn && turning.length === 1 && only) third = { kind: 'turn', side: only };
      else {
        const linked = steering.kind === 'knuckle' || steering.kind === 'tieRod';
        const hangs = turning.some(body => this.#hangsOnInput(body));
        if (byTurn && linked && !hangs) third = { kind: 'turn', side: steering.first };
        else third = { kind: 'input' };
      }
      byInput = third.kind === 'input' && turning.some(body => body !== 'pitman arm');
    }
    // a ram's input turns the knuckles on the axle alone; a pitman arm's hangs on the travels
    const travels = byTravel || (byInput && steering?.kind !== 'ram');
    return { parameters: { third, travels }, frame };
  }

  /** Whether a body rides on the chassis, or on the axle, so that travel does not move it there. */
  #isNative(body: string, frame: Frame): boolean {
    if (frame === 'chassis') return body === 'chassis' || body === 'pitman arm';
    const { steering } = this.#m;
    if (body === 'axle' || body === 'ram rod' || body.endsWith(' knuckle')) return true;
    const rod = steering?.rods.findIndex(each => each.name === body || each.kind === body) ?? -1;
    return rod >= 0 && rod !== steering?.dragLink;
  }

  /** What moves a part in a space of these parameters. */
  #dependence(part: Part, { third, roll }: Parameters, frame: Frame): Dependence {
    const bodies = bodiesOf(part);
    const turning = bodies.filter(body => this.#turns(body));
    const byInput =
      third?.kind === 'input' &&
      this.#m.steering?.kind !== 'ram' &&
      turning.some(body => body !== 'pitman arm');
    return {
      travels: byInput || bodies.some(body => !this.#isNative(body, frame)),
      third: turning.length > 0,
      roll: roll !== undefined && part.roll?.of === roll.of && !isHeld(part.roll),
    };
  }

  /** Whether the steering moves a body against the axle or the chassis that it rides on. */
  #turns(body: string): boolean {
    const rods = this.#m.steering?.rods ?? [];
    return (
      body.endsWith(' knuckle') ||
      body === 'pitman arm' ||
      body === 'ram rod' ||
      rods.some(rod => rod.name === body || rod.kind === body)
    );
  }

  /** Bodies whose place a knuckle's turn alone does not tell. */
  #hangsOnInput(body: string): boolean {
    const { steering } = this.#m;
    const drag = steering?.rods[steering.dragLink];
    return (
      body === 'pitman arm' || body === 'ram rod' || body === 'drag link' || body === drag?.name
    );
  }

  #space(plain: Parameters, frame: Frame, rolling: PartRoll | null = null): Searched | null {
    const parameters = rolling ? { ...plain, roll: rolling } : plain;
    const { third, travels } = parameters;
    if (travels && !third && !rolling && frame === 'chassis') return this.#alone;
    const name = third ? (third.kind === 'turn' ? third.side : 'input') : '';
    const key = `${travels} ${name} ${frame} ${rolling?.of.name ?? ''}`;
    let found = this.#made.get(key);
    if (found !== undefined) return found;
    const extent = third
      ? third.kind === 'turn'
        ? this.#turnExtent(third.side)
        : this.#inputExtent()
      : null;
    const roll = rolling && this.#rollExtent(rolling);
    if ((third && !extent) || (rolling && !roll)) found = null;
    else {
      const fewer = {
        travels: third && travels ? this.#space({ third: null, travels: true }, frame) : null,
        third: third && travels ? this.#space({ third, travels: false }, frame) : null,
        noRoll: rolling ? this.#space(plain, frame) : null,
        noThird:
          rolling?.by === 'line' && third && travels
            ? this.#space({ third: null, travels: true }, frame, rolling)
            : null,
      };
      const space = new Space(
        this.travels,
        parameters,
        frame,
        extent,
        part => this.#dependence(part, parameters, frame),
        {
          travels: fewer.travels?.space ?? null,
          third: fewer.third?.space ?? null,
          noRoll: fewer.noRoll?.space ?? null,
          noThird: fewer.noThird?.space ?? null,
        },
        roll,
      );
      found = { space, stops: this.#stopsOf(space, fewer) };
    }
    this.#made.set(key, found);
    return found;
  }

  /**
   * From where to where a rod rolls anywhere in the range: as sampled, and wider by a share. A link is looked at all
   * around: its joints' limits are stops of the space. Null where they leave it no roll at some pose.
   */
  #rollExtent(roll: PartRoll): Extent | null {
    if (roll.by === 'line') {
      for (const pose of this.#samples()) {
        if (rollingAt(pose, roll.of).window.kind === 'empty') return null;
      }
      return { low: -Math.PI, size: 2 * Math.PI };
    }
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const pose of this.#samples()) {
      const { from, to } = rollRange(roll, pose);
      low = Math.min(low, from);
      high = Math.max(high, to);
    }
    if (!(low <= high)) return null;
    const more = ROLL_WIDER * (high - low) + AROUND;
    return { low: low - more, size: high - low + 2 * more };
  }

  /** Poses along the edge and halfway to it, at both locks and straight ahead. */
  *#samples(): Generator<Pose> {
    const reach = this.#reach;
    const { edge } = this.#range;
    const stride = Math.max(1, Math.floor(edge.length / 24));
    for (let i = 0; i < edge.length; i += stride) {
      const p = edge[i] as EdgePoint;
      for (const share of [0, 0.5, 1]) {
        const { pose } = reach.travel(share * p.left, share * p.right);
        const interval = pose && reach.steering(pose);
        if (!pose || !interval) continue;
        for (const lock of [-1, 0, 1]) {
          const steered = reach.steered(pose, interval, lock);
          if (steered) yield steered;
        }
      }
    }
  }

  /** @param fewer spaces of fewer parameters, with their stops */
  #stopsOf(
    space: Space,
    { noRoll, noThird }: { noRoll: Searched | null; noThird: Searched | null },
  ): StopMargins {
    const { third, travels, roll } = space.parameters;
    // a link's roll moves no other stop, and the steering does not move the link
    if (roll?.by === 'line' && noRoll) {
      const rest = { stops: noRoll.stops, of: third ? [0, 1, 2] : [0, 1] };
      if (!third || !noThird) return new StopMargins(space, this.#reach, [rest]);
      const joints = { stops: new StopMargins(noThird.space, this.#reach, []), of: [0, 1, 3] };
      return new StopMargins(space, this.#reach, [rest, joints], false);
    }
    // stops of travel are looked at from the chassis, whatever the pair is seen from
    if (travels && !third) return this.#alone.stops;
    return new StopMargins(space, this.#reach, travels ? this.#travelStops : []);
  }

  /**
   * A knuckle's turn goes to its own stops; where one is missing, to where the tie rod has surely brought the other
   * knuckle past its stop. Null where that is not known.
   */
  #turnExtent(side: Side): Extent | null {
    const { axle, model } = this.#reach;
    const stopOf = (of: Side, end: 1 | -1): number | null => {
      const stop = axle.knuckles?.[of].steeringStop;
      const inward = (of === 'left') === (end === 1);
      return (inward ? stop?.inward : stop?.outward) ?? null;
    };
    const other: Side = side === 'left' ? 'right' : 'left';
    const kind = model.mechanism.steering?.kind;
    const linked = kind === 'knuckle' || kind === 'tieRod';
    const ends = ([-1, 1] as const).map((end): number | null => {
      const own = stopOf(side, end);
      if (own !== null) return end * (own + AROUND);
      const far = stopOf(other, end);
      if (!linked) return end * this.#furthestTurn(side, end);
      if (far === null) return null;
      for (let turn = STEP; turn < FURTHEST; turn += STEP) {
        const turns = model.steering?.turnedBy(side, end * turn);
        if (!turns) return null;
        const at = other === 'left' ? 0 : 2;
        if (end * Math.atan2(turns[at + 1] as number, turns[at] as number) > far) return end * turn;
      }
      return null;
    });
    const [low, high] = ends as [number | null, number | null];
    if (low === null || high === null || !Number.isFinite(high - low)) return null;
    return { low, size: high - low };
  }

  /**
   * How far a knuckle turns at most that has no stop of its own and hangs on the steering input: the greatest turn that
   * the bounds of its motion over the base cells of the input, and of the rod's roll, leave open.
   */
  #furthestTurn(side: Side, end: 1 | -1): number {
    const { axle } = this.#reach;
    const free = rodsOf(axle).find(rod => rod.roll.held === 'studs');
    const of = free && rollingPart(axle, free.name);
    const plain: Parameters = { third: { kind: 'input' }, travels: true };
    const found = this.#space(
      plain,
      'chassis',
      of ? { of, by: 'rod', stops: knuckleStops(axle) } : null,
    );
    if (!found) return Number.POSITIVE_INFINITY;
    const { space, stops } = found;
    let most = Number.NEGATIVE_INFINITY;
    let asked = 0;
    const look = (cell: Cell, wider: Margins | null): boolean => {
      if (++asked > MOST_ASKED) return false;
      const margins = stops.over(cell, wider);
      if (margins.outside) return true;
      const wide = cell.depths.findIndex((depth, j) => depth < (space.base[j] as number));
      const turning = wide < 0 ? space.bodies(cell)?.turning(side) : null;
      if (turning) {
        const turn = Math.atan2(turning.sin, turning.cos);
        most = Math.max(most, end * turn + spreadOf(turning.change));
        return true;
      }
      const deep = cell.depths.every((depth, j) => depth >= (space.base[j] as number) + 2);
      if (deep) return false;
      const over = cell.depths.map((depth, j) => depth - (space.base[j] as number));
      const j = wide >= 0 ? wide : over.indexOf(Math.min(...over));
      return halvesOf(cell, j).every(half => look(half, margins));
    };
    return look(wholeCell(space.p), null) ? most + AROUND : Number.POSITIVE_INFINITY;
  }

  /**
   * The steering input: the box's sweep, or the ram's stroke; else as far as it goes at sampled poses, and wider, with
   * the proof that stops are broken on all of the outer layers, so that no interval of the range reaches past them.
   */
  #inputExtent(): Extent | null {
    if (this.#input !== undefined) return this.#input;
    this.#input = this.#givenInput() ?? this.#sampledInput();
    return this.#input;
  }

  #givenInput(): Extent | null {
    const { axle } = this.#reach;
    const { steering } = this.#m;
    if (steering?.unit === 'in') {
      const stroke = axle.steering?.rams.find(ram => !ram.rod)?.stroke;
      return stroke ? { low: -stroke / 2 - AROUND, size: stroke + 2 * AROUND } : null;
    }
    const sweep = axle.steering?.box?.sweep;
    return sweep ? { low: sweep[0] - AROUND, size: sweep[1] - sweep[0] + 2 * AROUND } : null;
  }

  #sampledInput(): Extent | null {
    const reach = this.#reach;
    let [low, high] = [0, 0];
    for (const { input } of this.#samples()) {
      low = Math.min(low, input.steer);
      high = Math.max(high, input.steer);
    }
    for (const share of WIDER) {
      const more = share * (high - low);
      const extent = { low: low - more, size: high - low + 2 * more };
      const travels = this.#m.steering?.kind !== 'ram';
      const space = new Space(
        this.travels,
        { third: { kind: 'input' }, travels },
        travels ? 'chassis' : 'axle',
        extent,
      );
      const stops = new StopMargins(space, reach, travels ? this.#travelStops : []);
      if (isClosed(space, stops, more / extent.size)) return extent;
    }
    return null;
  }
}

/** Whether the outermost layers of the last parameter lie outside the range, whatever the others are. */
function isClosed(space: Space, stops: StopMargins, share: number): boolean {
  const depth = Math.max(1, Math.ceil(-Math.log2(share)));
  const last = space.p - 1;
  return [0, 1].every(end => {
    let cell: Cell = wholeCell(space.p);
    for (let k = 0; k < depth; k++) cell = halvesOf(cell, last)[end] as Cell;
    return isOutside(stops, cell, last, 0);
  });
}

/** Deepest halvings of the travels with which a layer is looked at. */
const LAYER_DEPTH = 7;

function isOutside(stops: StopMargins, cell: Cell, last: number, depth: number): boolean {
  if (stops.over(cell).outside) return true;
  if (last === 0 || depth >= LAYER_DEPTH * last) return false;
  return halvesOf(cell, depth % last).every(half => isOutside(stops, half, last, depth + 1));
}

/** How far the steering goes at the travels that were asked for: cells have many centers over the same travels. */
const intervals = new WeakMap<Reach, Map<string, SteerInterval | null>>();

function intervalAt(reach: Reach, pose: Pose): SteerInterval | null {
  const known = intervals.get(reach) ?? new Map<string, SteerInterval | null>();
  intervals.set(reach, known);
  const key = `${pose.input.left},${pose.input.right}`;
  let found = known.get(key);
  if (found === undefined) {
    found = reach.steering(pose);
    known.set(key, found);
  }
  return found;
}

/** The pose where the stops allow it; else null: centers of cells may lie outside the range. */
export function insideRange(pose: Pose, space: Space, reach: Reach): Pose | null {
  const { left, right, steer } = pose.input;
  const { third } = space.parameters;
  const state = reach.travel(left, right);
  if (!state.pose || state.margin < 0) return null;
  if (!third) return state.pose;
  const interval = intervalAt(reach, state.pose);
  if (!interval) return null;
  const { model } = reach;
  if (third.kind === 'input') {
    if (steer < interval.least.value || steer > interval.greatest.value) return null;
    return model.atSteer(state.pose, steer).pose;
  }
  // the input that turns this knuckle so, between the ends of the interval
  const wanted = pose.knuckleTurn(third.side) as number;
  const turn = (s: number): number =>
    model.atSteer(state.pose as Pose, s).pose?.knuckleTurn(third.side) ?? NaN;
  let [a, b] = [interval.least.value, interval.greatest.value];
  let [fa, fb] = [turn(a) - wanted, turn(b) - wanted];
  if (!(fa <= 0 && fb >= 0)) return null;
  for (let k = 0; k < 60 && b - a > 1e-12; k++) {
    const t = k % 3 === 2 ? (a + b) / 2 : a + ((b - a) * fa) / (fa - fb);
    const f = turn(t) - wanted;
    if (Math.abs(f) < 1e-12) return model.atSteer(state.pose, t).pose;
    if (f < 0) [a, fa] = [t, f];
    else [b, fb] = [t, f];
  }
  return model.atSteer(state.pose, a).pose;
}

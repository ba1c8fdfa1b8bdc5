/** A start as it was saved, read back: every field is checked by itself, so that a file by hand gets its messages. */
import { nearest } from '../nearest.ts';
import { own, type Problem, shown } from '../problem.ts';
import { readText } from '../text.ts';
import { type Answer, readAnswers, type Start } from './answers.ts';
import {
  type AxleChoice,
  axleChoice,
  linkLayouts,
  type StartLayout,
  steeringLayouts,
  strapLayouts,
} from './layouts.ts';
import type { HeightDatum } from './measurement.ts';
import { measurementsFor } from './measurements.ts';
import { surroundings } from './surroundings.ts';

export type StartRead = { ok: true; start: Start } | { ok: false; problems: Problem[] };

/**
 * Reads a start from the text of a file. All problems are told at once: field, what stands there, what would be right.
 *
 * @example
 * { "name": "truck", "unit": "in", "axles": [{ "name": "front", "links": "threeLinks", "steering": "dragLinkToKnuckle" }],
 *   "answers": { "wheelbase": "112", "front.lowerAxleHeight": { "left": "16", "right": "16 1/8" } } }
 */
export function readStart(bytes: Uint8Array | string): StartRead {
  const text = readText(bytes);
  if (!text.ok) {
    const wanted = 'a file of answers: { "name": …, "axles": [ … ], "answers": { … } }';
    const isWhole = ({ path, wanted: told }: Problem): boolean =>
      path === '' && told.startsWith('a build file');
    return {
      ok: false,
      problems: text.problems.map(each => (isWhole(each) ? { ...each, wanted } : each)),
    };
  }
  return new Reader(text.value).read();
}

const KEYS = ['name', 'unit', 'driverSide', 'axles', 'stands', 'answers', 'near', 'notes'];

class Reader {
  readonly #value: Record<string, unknown>;
  readonly #problems: Problem[] = [];

  constructor(value: Record<string, unknown>) {
    this.#value = value;
  }

  read(): StartRead {
    const value = this.#value;
    this.#unknown('', value, KEYS);
    const name = value.name;
    if (typeof name !== 'string' || name.trim() === '') {
      this.#problem('name', name, '', 'what the build is called');
    }
    const unit = this.#oneOf('unit', value.unit ?? 'in', ['in', 'mm']) ?? 'in';
    const driverSide =
      this.#oneOf('driverSide', value.driverSide ?? 'left', ['left', 'right']) ?? 'left';
    const layout: StartLayout = { driverSide, axles: this.#axles(driverSide) };
    const start: Start = {
      name: String(name),
      unit,
      layout,
      stands: this.#texts('stands', value.stands, ['rake', 'roll', 'rise']),
      answers: this.#answers(layout),
      ...(value.near === undefined ? {} : { near: this.#near(value.near) }),
    };
    const { problems } = readAnswers(start);
    const all = [
      ...this.#problems,
      ...problems.map(each => ({ ...each, path: `answers["${each.path}"]` })),
    ];
    return all.length > 0 ? { ok: false, problems: all } : { ok: true, start };
  }

  #axles(driverSide: 'left' | 'right'): AxleChoice[] {
    const { axles } = this.#value;
    if (!Array.isArray(axles) || axles.length < 1 || axles.length > 2) {
      this.#problem('axles', axles, '', 'a list of one or two axles { "name", "links", … }');
      return [];
    }
    const choices = axles.map((axle: unknown, i) => this.#axle(`axles[${i}]`, axle, driverSide));
    const [first, second] = choices;
    if (second && first?.name === second.name) {
      this.#problem('axles[1].name', second.name, 'it is there already', '"front" and "rear"');
    }
    return choices.sort((a, b) => (a.name < b.name ? -1 : 1));
  }

  #axle(path: string, axle: unknown, driverSide: 'left' | 'right'): AxleChoice {
    const keys = ['name', 'links', 'steering', 'assistRam', 'straps', 'differential'];
    this.#unknown(path, axle, keys);
    const name = this.#oneOf(`${path}.name`, own(axle, 'name'), ['front', 'rear']) ?? 'front';
    const usual = axleChoice(name, {}, driverSide);
    const pick = <T extends string>(key: string, choices: readonly T[], fallback: T): T => {
      const value = own(axle, key);
      return value === undefined
        ? fallback
        : (this.#oneOf(`${path}.${key}`, value, choices) ?? fallback);
    };
    const steering = own(axle, 'steering') ?? undefined;
    if (name === 'rear' && steering !== undefined) {
      this.#problem(`${path}.steering`, steering, 'a rear axle does not steer', 'no "steering"');
    }
    const assistRam = own(axle, 'assistRam') ?? false;
    if (typeof assistRam !== 'boolean')
      this.#problem(`${path}.assistRam`, assistRam, '', 'true or false');
    const differential = own(axle, 'differential');
    return {
      name,
      links: pick(
        'links',
        linkLayouts.map(({ id }) => id),
        usual.links,
      ),
      steering:
        name === 'rear'
          ? null
          : pick(
              'steering',
              steeringLayouts.map(({ id }) => id),
              'dragLinkToKnuckle',
            ),
      assistRam: assistRam === true,
      straps: pick(
        'straps',
        strapLayouts.map(({ id }) => id),
        usual.straps,
      ),
      differential:
        differential === undefined
          ? usual.differential
          : differential === null || differential === 'middle'
            ? null
            : this.#oneOf(`${path}.differential`, differential, ['left', 'right', 'middle']) ===
                'left'
              ? 'left'
              : 'right',
    };
  }

  #answers(layout: StartLayout): Record<string, Answer> {
    const answers = this.#value.answers ?? {};
    if (typeof answers !== 'object' || answers === null || Array.isArray(answers)) {
      this.#problem('answers', answers, '', 'an object with an answer for each measurement');
      return {};
    }
    const ids = measurementsFor(layout).map(({ id }) => id);
    const read: Record<string, Answer> = {};
    for (const [id, value] of Object.entries(answers)) {
      const path = `answers["${id}"]`;
      if (!ids.includes(id)) {
        const near = nearest(id, ids);
        this.#problem(
          path,
          value,
          'nobody asks for it',
          near ? `"${near}"` : `one of ${ids.join(', ')}`,
        );
        continue;
      }
      const answer = asAnswer(value);
      if (answer) read[id] = answer;
      else {
        this.#problem(
          path,
          value,
          '',
          '"22 1/2", { "left": …, "right": … } or { "value": …, "from": "wheelCenter" }',
        );
      }
    }
    return read;
  }

  #near(value: unknown): string[] {
    const ids = surroundings.map(({ id }) => id);
    if (!Array.isArray(value)) {
      this.#problem('near', value, '', `a list of ${ids.join(', ')}`);
      return [];
    }
    return value.flatMap((each: unknown, i) => this.#oneOf(`near[${i}]`, each, ids) ?? []);
  }

  #texts<const T extends string>(
    path: string,
    value: unknown,
    keys: readonly T[],
  ): Partial<Record<T, string>> {
    this.#unknown(path, value ?? {}, keys);
    const texts: Partial<Record<T, string>> = {};
    for (const key of keys) {
      const text = own(value, key);
      if (text === undefined) continue;
      if (typeof text === 'string' || typeof text === 'number') texts[key] = String(text);
      else this.#problem(`${path}.${key}`, text, '', 'a tape entry such as "2 1/2" or "1 deg"');
    }
    return texts;
  }

  #oneOf<const T extends string>(path: string, value: unknown, choices: readonly T[]): T | null {
    const choice = choices.find(each => each === value);
    if (choice !== undefined) return choice;
    const near = typeof value === 'string' ? nearest(value, choices) : null;
    this.#problem(path, value, '', near ? `"${near}"` : `one of ${choices.join(', ')}`);
    return null;
  }

  #unknown(path: string, value: unknown, keys: readonly string[]): void {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      this.#problem(path, value, '', `an object with ${keys.join(', ')}`);
      return;
    }
    for (const key of Object.keys(value)) {
      if (keys.includes(key)) continue;
      const near = nearest(key, keys);
      const at = path === '' ? key : `${path}.${key}`;
      this.#problem(
        at,
        own(value, key),
        'there is no such field',
        near ? `"${near}"` : `one of ${keys.join(', ')}`,
      );
    }
  }

  #problem(path: string, value: unknown, message: string, wanted: string): void {
    this.#problems.push({ path, found: shown(value), message, wanted });
  }
}

function asAnswer(value: unknown): Answer | null {
  const text = (each: unknown): string | null =>
    typeof each === 'string' ? each : typeof each === 'number' ? String(each) : null;
  const plain = text(value);
  if (plain !== null) return { value: plain };
  const inner = own(value, 'value') ?? value;
  const from = own(value, 'from');
  if (from !== undefined && from !== 'floor' && from !== 'wheelCenter' && from !== 'railBottom')
    return null;
  const datum: Pick<Answer, 'from'> = from === undefined ? {} : { from: from as HeightDatum };
  const one = text(inner);
  if (one !== null) return { value: one, ...datum };
  const [left, right] = [text(own(inner, 'left')), text(own(inner, 'right'))];
  return left === null || right === null ? null : { value: { left, right }, ...datum };
}

/** A start as it is saved, plain JSON: `readStart` reads it back. */
export function writtenStart({ name, unit, layout, stands, answers, near }: Start): object {
  return {
    name,
    unit,
    driverSide: layout.driverSide,
    axles: layout.axles.map(({ steering, ...axle }) => ({
      ...axle,
      ...(steering === null ? {} : { steering }),
      differential: axle.differential ?? 'middle',
    })),
    ...(stands ? { stands } : {}),
    ...(near ? { near } : {}),
    answers,
  };
}

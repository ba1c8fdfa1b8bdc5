/** Findings of example files: what they hang on, how they are ordered, and that mending the cause mends them. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { openBuild } from '../../geometry/cycle/open.ts';
import { walkAxle } from '../../geometry/cycle/walkReport.ts';
import { type Finding, findFindings, SEVERITIES } from '../../geometry/finding/finding.ts';

type Json = { [key: string]: Json } & { [index: number]: Json } & (string | number);

/** Findings of an example, with its file changed first. */
function findings(name: string, change: (axle: Json, file: Json) => void = () => {}): Finding[] {
  const path = new URL(`../../examples/${name}.axlewalk.json`, import.meta.url);
  const file = JSON.parse(readFileSync(path, 'utf8')) as Json;
  change(file.axles?.[0] as Json, file);
  const opened = openBuild(JSON.stringify(file));
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const walks = opened.axles.map(({ build, axle, model }) =>
    walkAxle(build, axle, model, { path: 'both', extremes: false }),
  );
  return findFindings(opened.build, walks);
}

const named = (list: Json | undefined, name: string): { [key: string]: unknown } => {
  const found = (list as unknown as { name: string }[]).find(each => each.name === name);
  if (!found) throw new Error(`no ${name}`);
  return found as unknown as { [key: string]: unknown };
};

const mustFix = (all: readonly Finding[]): string[] =>
  all
    .filter(({ severity }) => severity === 'mustFix')
    .map(({ kind, parts }) => `${kind} ${parts.join()}`);

const longArm = findings('long-arm-front');
const shortArm = findings('short-arm-front');

describe('long arms', () => {
  test('have one thing to fix; a longer hose mends it', () => {
    expect(mustFix(longArm)).toEqual(['slackUsedUp right brake hose']);
    const mended = findings('long-arm-front', axle => {
      named(axle.lines, 'brake hose').length = 25.5;
    });
    expect(mustFix(mended)).toEqual([]);
    expect(mended.filter(({ parts }) => parts.includes('right brake hose'))).toEqual([]);
  });

  test('a finding hangs on the fields of its part and on nothing else', () => {
    const hose = longArm.find(({ parts }) => parts.includes('right brake hose'));
    const at = 'axles["front"].lines["brake hose"]';
    expect(hose?.hangsOn).toEqual([
      ...[0, 1, 2].map(i => `${at}.from.at[${i}]`),
      ...[0, 1, 2].map(i => `${at}.to.at[${i}]`),
      `${at}.length`,
    ]);
    expect(hose?.assumed).toBe(false);
    expect(hose?.text).toMatch(
      /^The passenger brake hose is 5\/16 in too short: driver side 8 7\/8 up, passenger side 9 3\/8 down, full left\./,
    );
  });

  test('assumed fields are told', () => {
    const guessed = findings('long-arm-front', axle => {
      named(axle.lines, 'brake hose').length = { value: 24, from: 'assumed' };
    });
    expect(guessed.find(({ parts }) => parts.includes('right brake hose'))?.assumed).toBe(true);
  });

  test('on the other side of the vehicle sits the driver', () => {
    const righthand = findings('long-arm-front', (_, file) => {
      (file as unknown as { driverSide: string }).driverSide = 'right';
    });
    expect(righthand.find(({ parts }) => parts.includes('right brake hose'))?.text).toMatch(
      /^The driver brake hose is 5\/16 in too short: driver side 9 3\/8 down, passenger side 8 7\/8 up/,
    );
  });
});

describe('short arms', () => {
  test('both ends of a link are one finding, with the joints that they name', () => {
    const lower = shortArm.filter(
      ({ kind, parts }) =>
        kind === 'limitBroken' && parts.some(part => part.startsWith('left lower link')),
    );
    expect(lower).toHaveLength(1);
    expect([...(lower[0]?.parts ?? [])].sort()).toEqual([
      'left lower link.axle',
      'left lower link.chassis',
    ]);
    expect(lower[0]?.hangsOn).toContain('axles["front"].links["lower link"].axle.at[1]');
    expect(
      lower[0]?.hangsOn.some(path => /^axles\["front"\]\.joints\[".*"\]\.limit$/.test(path)),
    ).toBe(true);
    expect(lower[0]?.hangsOn.filter(path => /tube|rates|housing|through/.test(path))).toEqual([]);
  });

  test('the pose tells the roll at which the link was asked', () => {
    const lower = shortArm.find(
      ({ kind, parts }) => kind === 'limitBroken' && parts.includes('left lower link.axle'),
    );
    expect(Object.keys(lower?.pose.linkRoll_deg ?? {})).toEqual(['left lower link']);
    expect(shortArm.find(({ kind }) => kind === 'slackUsedUp')?.pose.linkRoll_deg).toBeNull();
  });

  test('left and right are findings of two parts at mirrored poses', () => {
    const of = (part: string) =>
      shortArm.find(({ kind, parts }) => kind === 'limitBroken' && parts.includes(part));
    expect(of('left lower link.axle')).toBeDefined();
    expect(of('right lower link.axle')).toBeDefined();
  });
});

test('fields that a place is taped from are among what a finding hangs on', () => {
  const rear = findings('triangulated-rear');
  const shift = rear.find(({ kind }) => kind === 'outOfBand');
  expect(shift?.hangsOn.some(path => path.startsWith('dimensions['))).toBe(true);
  expect(shift?.hangsOn.some(path => path.startsWith('wanted.bands['))).toBe(true);
});

test.each([
  ['long-arm-front', longArm],
  ['short-arm-front', shortArm],
])('%s: worst first, each once, none called safe', (_, all) => {
  const order = all.map(({ severity }) => SEVERITIES.indexOf(severity));
  expect(order).toEqual([...order].sort((a, b) => a - b));
  const texts = all.map(({ text }) => text);
  expect(new Set(texts).size).toBe(texts.length);
  for (const { text, hangsOn } of all) {
    expect(text).toMatch(/^[A-Z].*\.$/);
    expect(text).not.toMatch(/safe|undefined|NaN|\bleft (lower|upper)|\bright (lower|upper)/);
    expect(new Set(hangsOn).size).toBe(hangsOn.length);
  }
});

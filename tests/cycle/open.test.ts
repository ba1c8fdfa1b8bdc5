import { expect, test } from 'vitest';
import { axleOf, openBuild } from '../../geometry/cycle/open.ts';
import { openAxle } from '../../geometry/cycle/openAxle.ts';
import { poseReport } from '../../geometry/cycle/poseReport.ts';
import { edited, sample, steered, type Written } from '../build/sample.ts';

const open = (file: Written, variant?: string) =>
  openBuild(JSON.stringify(file), variant === undefined ? {} : { variant });

/** A second axle, without what locates it sideways. */
function withRear(file: Written, links: readonly string[]): Written {
  const [front] = file.axles as Written[];
  const rear = structuredClone(front) as Written;
  const kept = (rear.links as Written[]).filter(({ name }) => links.includes(String(name)));
  return {
    ...file,
    axles: [
      front,
      {
        name: 'rear',
        steered: false,
        wheelCenters: rear.wheelCenters,
        tire: rear.tire,
        links: kept.map(link => ({ ...link, name: `rear ${link.name}` })),
      },
    ],
  };
}

test('bytes to an axle that gives a pose', () => {
  const opened = openBuild(new TextEncoder().encode(JSON.stringify(steered())));
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  expect(opened.build.name).toBe('sample');
  expect(opened.file.name).toBe('sample');
  const [axle] = opened.axles;
  if (!axle) throw new Error('no axle');
  const report = poseReport(axle, { left: 2, right: -1, steer: 0.1 });
  expect(report.status).toBe('solved');
  expect(report.travel_in).toEqual({ left: 2, right: -1 });
  // sin roll = (left − right) / track, exactly
  expect(report.roll_deg).toBeCloseTo((Math.asin(3 / 70) * 180) / Math.PI, 12);
});

test('without a name the only axle, else the front one', () => {
  const one = open(sample());
  if (!one.ok) throw new Error(JSON.stringify(one.problems));
  expect(axleOf(one, null)?.axle.name).toBe('front');
  expect(axleOf(one, 'rear')).toBeNull();
  expect(axleOf({ ...one, axles: [] }, null)).toBeNull();
});

test('a file that cannot be read, and a layout that leaves the axle free, give problems', () => {
  expect(openBuild('{')).toMatchObject({ ok: false });
  const free = open(edited(sample(), { 'axles.0.links.2': undefined }));
  expect(free.ok).toBe(false);
});

test('problems of the mechanism come from all axles at once', () => {
  const file = withRear(sample(), ['lower link']);
  const [front = {}] = file.axles as Written[];
  const links = (front.links as Written[]).filter(({ name }) => name !== 'track bar');
  const opened = open({ ...file, axles: [{ ...front, links }, (file.axles as Written[])[1]] });
  if (opened.ok) throw new Error('it was taken');
  expect(opened.problems.map(({ path }) => path)).toEqual([
    'axles["front"].links',
    'axles["rear"].links',
  ]);
});

test('an unknown variant is refused, a known one applied', () => {
  const file = {
    ...sample(),
    variants: [
      {
        name: 'wide',
        changes: [{ part: 'axles.front', field: 'wheelCenters', value: 72 }],
      },
    ],
  };
  const wide = open(file, 'wide');
  if (!wide.ok) throw new Error(JSON.stringify(wide.problems));
  expect(wide.build.variant).toBe('wide');
  expect(wide.axles[0]?.axle.wheelCenters).toBe(72);
  expect(open(file, 'narrow').ok).toBe(false);
});

test('one axle alone, with its brackets at a factor', () => {
  const opened = open(sample());
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const [axle] = opened.axles;
  if (!axle) throw new Error('no axle');
  const again = openAxle(opened.build, axle.axle, { bracketFactor: 2 });
  expect(again).toMatchObject({ ok: true, axle: { axle: { name: 'front' } } });
});

/** The chosen finding stays chosen while newer findings come in. */
import { describe, expect, it, vi } from 'vitest';
import type { Finding } from '../../../geometry/finding/finding.ts';
import type { AxleGapReport } from '../../../geometry/gap/gapReport.ts';

vi.mock('virtual:workshop', () => ({ default: '' }));

const { told } = await import('../../../src/app/state/study.ts');
const { START } = await import('../../../src/app/state/shop.ts');

const finding = (kind: string, ...parts: string[]): Finding => ({
  kind,
  severity: 'mustFix',
  axle: 'front',
  parts,
  pose: { left_in: 0, right_in: 0, steer: null, linkRoll_deg: null },
  where: '',
  amount: { value: 1, unit: 'in' },
  text: '',
  hangsOn: [],
  assumed: false,
});

const gaps: AxleGapReport = {
  axle: 'front',
  parts: 0,
  pairs: [],
  excluded: [],
  clearances: [],
  notes: [],
} as unknown as AxleGapReport;

function chosenAfter(before: Finding[], chosen: number | null, findings: Finding[]): number | null {
  const shop = {
    ...START,
    results: { ...START.results, findings: before },
    look: { ...START.look, finding: chosen },
  };
  const next = told(shop, { generation: 0, kind: 'findings', findings, gaps, isFinal: true });
  return next.look?.finding ?? null;
}

describe('told', () => {
  const [tire, rod, hose] = [
    finding('partsTouch', 'tire', 'box'),
    finding('gapShort', 'rod', 'tire'),
    finding('slackUsedUp', 'hose'),
  ];
  it('follows a finding to its new place', () => {
    expect(chosenAfter([tire, rod], 1, [tire, hose, rod])).toBe(2);
    expect(chosenAfter([tire, rod], 0, [tire, hose, rod])).toBe(0);
  });
  it('knows a pair again that was close and now touches', () => {
    expect(chosenAfter([tire, rod], 1, [finding('partsTouch', 'rod', 'tire'), tire])).toBe(0);
  });
  it('chooses nothing where it has gone, or where nothing was chosen', () => {
    expect(chosenAfter([tire, rod], 1, [tire])).toBeNull();
    expect(chosenAfter([tire, rod], null, [tire])).toBeNull();
  });
});

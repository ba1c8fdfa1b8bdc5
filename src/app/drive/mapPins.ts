/** Which findings have a pin on the travel map, and what it looks like. */
import type { Finding } from '../../../geometry/finding/finding.ts';
import type { AxleGapReport } from '../../../geometry/gap/gapReport.ts';
import { gapStep, shareOf } from '../../charts/gapScale.ts';
import type { PinKind } from '../../charts/pins.ts';

export interface MapPin {
  label: string;
  kind: PinKind;
  step: number;
  left: number;
  right: number;
}

/** Most pins at once; the chosen finding has one beyond that. */
const MOST = 8;

/** Kinds that are about where a stop is met. */
const STOPS: ReadonlySet<string> = new Set([
  'upTravelEnds',
  'droopEnds',
  'limitBroken',
  'padSlidOff',
  'noPose',
  'steeringEndsEarly',
  'unstopped',
]);

function kindOf({ kind, severity }: Finding): PinKind | null {
  if (kind === 'partsTouch') return 'touch';
  if (kind === 'gapShort') return 'close';
  return severity !== 'note' && STOPS.has(kind) ? 'stop' : null;
}

/** Pins of the findings that have a spot, worst first; their numbers are those of the list. */
export function mapPins(
  findings: readonly Finding[],
  gaps: AxleGapReport | null,
  chosen: number | null,
): MapPin[] {
  const undecided = new Set(
    (gaps?.pairs ?? []).filter(pair => pair.status === 'undecided').map(({ a, b }) => nameOf(a, b)),
  );
  const all = findings.flatMap((finding, i): (MapPin & { index: number })[] => {
    const kind = kindOf(finding);
    if (!kind) return [];
    const { left_in: left, right_in: right } = finding.pose;
    const gap = kind === 'close' ? finding.amount.value : -finding.amount.value;
    const step = gapStep(shareOf(gap, finding.others?.asked?.value ?? 0), gap);
    const [a = '', b = ''] = finding.parts;
    const isUndecided = kind !== 'stop' && undecided.has(nameOf(a, b));
    return [{ index: i, label: isUndecided ? '?' : String(i + 1), kind, step, left, right }];
  });
  const shown = all.filter(({ index }, n) => n < MOST || index === chosen);
  return shown.map(({ index: _, ...pin }) => pin);
}

const nameOf = (a: string, b: string): string => [a, b].sort().join('|');

/** Which findings have a pin on the travel map, and what it looks like. */
import type { Build } from '../../../geometry/build/build.ts';
import type { Finding } from '../../../geometry/finding/finding.ts';
import { gapStep, shareOf } from '../../charts/gapScale.ts';
import type { PinKind } from '../../charts/pins.ts';
import { isGuess } from '../words/guess.ts';

export interface MapPin {
  /** Of the finding, in the list. */
  index: number;
  label: string;
  kind: PinKind;
  isGuess: boolean;
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

/** A pair of which the proof can't tell whether it keeps its gap. */
const UNDECIDED = 'gapUndecided';

function kindOf({ kind, severity }: Finding): PinKind | null {
  if (kind === 'partsTouch') return 'touch';
  if (kind === 'gapShort' || kind === UNDECIDED) return 'close';
  return severity !== 'note' && STOPS.has(kind) ? 'stop' : null;
}

/** Pins of the findings that have a spot, worst first; their numbers are those of the list. */
export function mapPins(
  build: Build,
  findings: readonly Finding[],
  chosen: number | null,
): MapPin[] {
  const all = findings.flatMap((finding, index) => {
    const kind = kindOf(finding);
    return kind ? [{ index, kind, finding }] : [];
  });
  return all
    .filter(({ index }, n) => n < MOST || index === chosen)
    .map(({ index, kind, finding }) => {
      const gap = finding.kind === 'partsTouch' ? -finding.amount.value : finding.amount.value;
      return {
        index,
        label: finding.kind === UNDECIDED ? '?' : String(index + 1),
        kind,
        isGuess: isGuess(build, finding),
        step: gapStep(shareOf(gap, finding.others?.asked?.value ?? 0), gap),
        left: finding.pose.left_in,
        right: finding.pose.right_in,
      };
    });
}

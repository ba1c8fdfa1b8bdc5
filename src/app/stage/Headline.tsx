/** The one sentence that leads: the chosen finding, or what all of them come to. */
import { useMemo } from 'react';
import { amountWords, lengthWords, sentence } from '../../../geometry/finding/words.ts';
import { factsOf } from '../answers/facts.ts';
import { goToPose } from '../answers/goTo.ts';
import { CompareLead } from '../compare/CompareLead.tsx';
import { act } from '../state/action.ts';
import { useShop } from '../state/shop.ts';
import { Sentence } from '../words/Amount.tsx';
import { isGap, summaryWords } from '../words/findingWords.ts';
import { isGuess } from '../words/guess.ts';
import { pageShop, poseOf, steeringWords, travelOf } from '../words/shopWords.ts';
import { DidLead } from './DidLead.tsx';
import './Headline.css';

export function Headline() {
  const chosen = useShop(shop => shop.look.finding);
  const isComparing = useShop(shop => shop.comparing !== null);
  const hasChanged = useShop(shop => shop.did?.isPutAway === false);
  return (
    <div className="headline" aria-live="polite">
      {isComparing ? (
        <CompareLead />
      ) : chosen !== null ? (
        <Chosen index={chosen} />
      ) : hasChanged ? (
        <DidLead />
      ) : (
        <Summary />
      )}
    </div>
  );
}

function Summary() {
  const rig = useShop(shop => shop.rig);
  const findings = useShop(shop => shop.results.findings);
  const isFinal = useShop(shop => shop.results.isFinal);
  const failed = useShop(shop => shop.results.failed);
  const holdsRide = useShop(shop => shop.results.range?.holdsRide ?? true);
  const hasRange = useShop(shop => shop.results.range !== null);
  const isListed = useShop(shop => shop.look.sheet === 'findings');
  if (!rig) return null;
  if (failed !== null) {
    return (
      <>
        <h1 className="lead">The check stopped.</h1>
        <p className="lead-note">What is shown was found before it did: {failed}</p>
      </>
    );
  }
  if (!hasRange) return <h1 className="lead">Finding how far the axle can move.</h1>;
  if (!holdsRide) return <h1 className="lead">The stops do not even allow ride height.</h1>;
  const told = !isFinal && findings.length === 0;
  const gaps = findings.filter(isGap);
  const areGuesses = gaps.length > 0 && gaps.every(each => isGuess(rig.build, each));
  return (
    <>
      <h1 className="lead">
        {told ? 'Checking what touches what.' : summaryWords(findings, isFinal)}
      </h1>
      {isFinal && findings.length > 0 && !areGuesses ? (
        isListed && <p className="lead-note lead-hint">Pick one below to stand the axle there.</p>
      ) : (
        <p className="lead-note">
          {isFinal
            ? findings.length > 0
              ? 'On assumed numbers alone: nothing of it is proved until they are taped.'
              : 'Parts rigid, as entered. Nothing found is not the same as nothing there.'
            : 'Pairs of parts are still being checked, nearest first.'}
        </p>
      )}
    </>
  );
}

function Chosen({ index }: { index: number }) {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const range = useShop(shop => shop.results.range);
  const finding = useShop(shop => shop.results.findings[index]);
  const facts = useMemo(
    () => (rig && finding ? factsOf(rig, unit, range, finding) : null),
    [rig, unit, range, finding],
  );
  if (!rig || !finding || !facts) return null;
  const shop = pageShop(rig.build, unit);
  const { amount, extent, kind } = finding;
  const text =
    amount.unit === 'in'
      ? lengthWords(shop, amount.value)
      : amountWords(shop, amount.value, amount.unit);
  const isHit = kind === 'partsTouch';
  const end = facts.hasAmount && facts.after === '.' ? '.' : '';
  return (
    <>
      <h1 className="lead">
        {facts.before}
        {facts.hasAmount && (
          <>
            {' '}
            <span className={isHit ? 'lead-amount touch' : 'lead-amount'}>
              <Sentence text={text} />
              {end}
            </span>
          </>
        )}
        {end === '' && facts.after}
      </h1>
      <p className="lead-pose">
        <PoseWords left={finding.pose.left_in} right={finding.pose.right_in} of={shop} />
        {!extent && facts.steering !== '' && `, ${facts.steering}`}.
      </p>
      {extent && (
        <p className="lead-pose">
          {beginning(facts.steering, isHit)}
          <PoseWords left={extent.from.left_in} right={extent.from.right_in} of={shop} plain />
          {extent.from.left_in === 0 && extent.from.right_in === 0 && steeringOf(rig, extent.from)}.
        </p>
      )}
      {extent && (
        <div className="lead-buttons">
          <button type="button" className="button" onClick={() => act(goToPose, extent.from)}>
            {isHit ? 'Go to first touch' : 'Go to where it begins'}
          </button>
        </div>
      )}
    </>
  );
}

/** 'Full right, it touches from ': the steering has its full share there before the wheels travel. */
function beginning(steering: string, isHit: boolean): string {
  const what = isHit ? 'ouches from ' : 'egins at ';
  if (steering === '' || steering === 'any steering') return `${isHit ? 'T' : 'B'}${what}`;
  return `${sentence(steering)}, it ${isHit ? 't' : 'b'}${what}`;
}

function steeringOf(rig: Parameters<typeof poseOf>[0], name: Parameters<typeof poseOf>[1]): string {
  const pose = poseOf(rig, name);
  const words = pose ? steeringWords(rig, pose) : '';
  return words === '' ? '' : `, ${words}`;
}

interface PoseWordsProps {
  left: number;
  right: number;
  of: Parameters<typeof travelOf>[0];
  /** Within a sentence: no word before it, no capital. */
  plain?: boolean;
}

/** 'Flexed: driver 8 7/8 up, passenger 9 3/8 down', the travels in bold. */
function PoseWords({ left, right, of, plain = false }: PoseWordsProps) {
  const { isFlexed, both, driver, passenger } = travelOf(of, left, right);
  if (both !== null) {
    if (both === 'at ride height') return <>{plain ? 'ride height' : 'At ride height'}</>;
    return (
      <>
        {plain ? 'both wheels ' : 'Both wheels '}
        <b className="strong">
          <Sentence text={both} />
        </b>
      </>
    );
  }
  return (
    <>
      {plain ? 'driver ' : isFlexed ? 'Flexed: driver ' : 'Driver '}
      <b className="strong">
        <Sentence text={driver} />
      </b>
      , passenger{' '}
      <b className="strong">
        <Sentence text={passenger} />
      </b>
    </>
  );
}

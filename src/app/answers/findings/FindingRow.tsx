/** One finding: number, what it is, where, its stamp, its bar on the rule, its amount. */

import type { Finding } from '../../../../geometry/finding/finding.ts';
import { type GapRule, onRule } from '../../../charts/gapRule.ts';
import { GAP_STEPS, gapStep, shareOf } from '../../../charts/gapScale.ts';
import { Stamp } from '../../../charts/Stamp.tsx';
import { AmountOf, Length, Sentence } from '../../words/Amount.tsx';
import { gapOf } from '../../words/findingWords.ts';
import type { FindingFacts } from '../facts.ts';
import { FindingDetail } from './FindingDetail.tsx';

export interface FindingRowProps {
  finding: Finding;
  facts: FindingFacts;
  number: number;
  rule: GapRule;
  unit: 'in' | 'mm';
  isChosen: boolean;
  isOpen: boolean;
  choose(): void;
  toggle(): void;
}

export function FindingRow(props: FindingRowProps) {
  const { finding, facts, number, rule, unit, isChosen, isOpen, choose, toggle } = props;
  const gap = gapOf(finding);
  const mark = gap === null ? 'stop' : gap < 0 ? 'touch' : 'close';
  const step = gap === null ? -1 : gapStep(shareOf(gap, facts.required ?? 0), gap);
  const color = step < 0 ? undefined : `var(--gap-${GAP_STEPS[step]})`;
  const detailId = `finding-${number}-detail`;
  return (
    <li className={`finding ${isChosen ? 'chosen' : ''} ${isOpen ? 'open' : ''}`}>
      <div className="finding-line">
        <button
          type="button"
          className="finding-main"
          aria-current={isChosen ? 'true' : undefined}
          onClick={choose}
        >
          <span
            className={`finding-pin ${mark}${facts.isGuess ? ' guess' : ''}`}
            style={mark === 'close' ? { borderColor: color } : undefined}
          >
            {number}
          </span>
          <span className="finding-words">
            <span className="finding-title">{facts.title}</span>
            <span className="finding-where" title={facts.where}>
              {facts.isGuess && <span className="finding-guess">on assumed numbers</span>}
              <Sentence text={facts.where} />
            </span>
          </span>
          <Stamp {...facts.stamp} />
          <Bar {...{ finding, facts, rule, gap, color }} />
          <span className={`finding-amount ${mark}`}>
            {gap !== null ? (
              <Length inches={gap} unit={unit} mark={unit === 'in' ? 'prime' : 'unit'} fine />
            ) : facts.hasAmount ? (
              <>
                {facts.note !== '' && <small>{facts.note} </small>}
                <AmountOf value={finding.amount.value} unit={finding.amount.unit} page={unit} />
              </>
            ) : null}
          </span>
        </button>
        <button
          type="button"
          className="finding-more"
          aria-expanded={isOpen}
          aria-controls={isOpen ? detailId : undefined}
          aria-label={`What finding ${number} hangs on`}
          onClick={toggle}
        >
          <svg viewBox="0 0 12 8" width="12" height="8" aria-hidden="true">
            <path d="M1 1.5 6 6.5 11 1.5" />
          </svg>
        </button>
      </div>
      {isOpen && <FindingDetail id={detailId} finding={finding} facts={facts} />}
    </li>
  );
}

interface BarProps {
  finding: Finding;
  facts: FindingFacts;
  rule: GapRule;
  gap: number | null;
  color: string | undefined;
}

function Bar({ finding, facts, rule, gap, color }: BarProps) {
  const zero = onRule(rule, 0);
  const length = gap ?? lengthOnRule(finding);
  const end = length === null ? zero : onRule(rule, length);
  const asked = facts.required;
  return (
    <span className="finding-bar" aria-hidden="true">
      {length !== null && (
        <i
          className={gap === null ? 'bar ink' : gap < 0 ? 'bar touch' : 'bar'}
          style={{
            left: `${100 * Math.min(zero, end)}%`,
            width: `${100 * Math.abs(end - zero)}%`,
            backgroundColor: color,
          }}
        />
      )}
      {asked !== null && asked > 0 && (
        <i className="bar-wanted" style={{ left: `${100 * onRule(rule, asked)}%` }} />
      )}
    </span>
  );
}

/** Lengths that are short or left over hang on the rule too, in plain ink: they are no gap of two parts. */
function lengthOnRule({ kind, amount }: Finding): number | null {
  if (amount.unit !== 'in') return null;
  if (kind === 'nearLimit') return amount.value;
  return kind === 'slackUsedUp' || kind === 'limitBroken' ? -amount.value : null;
}

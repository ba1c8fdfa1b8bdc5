/** The head of the rule that findings hang on: its ticks and their numbers. */
import type { GapRule } from '../../../charts/gapRule.ts';
import { Length } from '../../words/Amount.tsx';

const LENGTH = [4, 7, 11] as const;

/** Share of the rule under which its left side has no room for its number beside the word, and for the word at all. */
const NARROW = 0.45;
const NARROWER = 0.32;

export function RuleHead({ rule, unit }: { rule: GapRule; unit: 'in' | 'mm' }) {
  const zero = -rule.from / (rule.to - rule.from);
  return (
    <div className="rule-head" aria-hidden="true">
      {rule.ticks.map(({ at, weight, label }) => (
        <i
          key={at}
          className="rule-tick"
          style={{ left: `${100 * at}%`, height: LENGTH[weight], width: weight === 2 ? 1.5 : 1 }}
        >
          {label !== null && !(at === 0 && zero < NARROW && zero >= NARROWER) && (
            <b className={label === 0 ? 'rule-zero' : undefined}>
              {label === 0 ? '0' : <Length inches={label} unit={unit} mark="prime" />}
            </b>
          )}
        </i>
      ))}
      {zero >= NARROWER && (
        <span
          className={zero < NARROW ? 'rule-word before-zero' : 'rule-word'}
          style={zero < NARROW ? { right: `${100 - 100 * zero}%` } : { left: `${50 * zero}%` }}
        >
          overlap
        </span>
      )}
      <span className="rule-word" style={{ left: `${50 + 50 * zero}%` }}>
        gap
      </span>
    </div>
  );
}

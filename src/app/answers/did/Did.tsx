/** What the last change of the build did: gaps before (dashed) and after, findings that went and came. */
import type { Finding } from '../../../../geometry/finding/finding.ts';
import { partWords, sentence } from '../../../../geometry/finding/words.ts';
import { type GapRule, gapRule, onRule } from '../../../charts/gapRule.ts';
import { GAP_STEPS, gapStep, shareOf } from '../../../charts/gapScale.ts';
import type { GapChange } from '../../edit/whatItDid.ts';
import { act } from '../../state/action.ts';
import { putDidAway } from '../../state/did.ts';
import { useShop } from '../../state/shop.ts';
import { Length, Sentence } from '../../words/Amount.tsx';
import { changeWords } from '../../words/didWords.ts';
import { findingWords, type Told } from '../../words/findingWords.ts';
import { pageShop } from '../../words/shopWords.ts';
import './Did.css';
import { useDid } from './useDid.ts';

/** Rows that are shown; the rest are counted. */
const MOST = 8;

export function Did() {
  const did = useDid();
  const unit = useShop(shop => shop.look.unit);
  if (!did) return null;
  const { rig, gaps, went, came, unchanged, steps, isFinal } = did;
  const shown = gaps.slice(0, MOST);
  const rule = gapRule(
    shown.flatMap(({ before, after, required }) =>
      [before, after].flatMap(gap =>
        gap === null ? [] : [{ gap: Math.min(gap, 2 * required), required }],
      ),
    ),
    unit,
  );
  const { build, axle } = rig;
  const told: Told = { shop: pageShop(build, unit), build, axle };
  const rest = gaps.length - shown.length;
  return (
    <section className="here did" aria-label="What the last change did">
      <header className="did-head">
        <h2>What it did</h2>
        <span className="note">before is dashed</span>
        <button type="button" className="quiet" onClick={() => act(putDidAway)}>
          Put away
        </button>
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls */}
      <div className="did-rows" tabIndex={0}>
        <p className="did-steps">
          {steps.map(step => (
            <span key={step}>
              <Sentence text={step} />
            </span>
          ))}
        </p>
        {!isFinal && <p className="note did-wait">Still checking: rows may change.</p>}
        <ul>
          {shown.map(change => (
            <GapRow
              key={`${change.a} | ${change.b}`}
              change={change}
              rule={rule}
              names={[change.a, change.b].map(part => partWords(told.shop, rig.axle, part))}
              note={changeWords(told.shop, change)}
              unit={unit}
            />
          ))}
          {rest > 0 && <li className="did-other">{rest} more changed</li>}
          {unchanged > 0 && (
            <li className="did-other">
              {unchanged === 1
                ? 'One gap that lacks something'
                : `${unchanged} gaps that lack something`}
              : not changed
            </li>
          )}
          {went.map(finding => (
            <Other key={finding.text} told={told} finding={finding} word="went" />
          ))}
          {came.map(finding => (
            <Other key={finding.text} told={told} finding={finding} word="came" />
          ))}
          {isFinal && went.length + came.length === 0 && (
            <li className="did-other">Other findings: none went, none came</li>
          )}
        </ul>
      </div>
    </section>
  );
}

interface GapRowProps {
  change: GapChange;
  rule: GapRule;
  names: readonly string[];
  note: string;
  unit: 'in' | 'mm';
}

function GapRow({ change, rule, names, note, unit }: GapRowProps) {
  const { before, after, required } = change;
  const zero = onRule(rule, 0);
  const span = (gap: number) => {
    const end = onRule(rule, gap);
    return { left: `${100 * Math.min(zero, end)}%`, width: `${100 * Math.abs(end - zero)}%` };
  };
  const step = after === null ? -1 : gapStep(shareOf(after, required), after);
  const length = (gap: number | null, mark: 'none' | 'prime' | 'unit') =>
    gap === null ? '–' : <Length inches={gap} unit={unit} mark={mark} fine />;
  return (
    <li className="did-row">
      <span className="did-names">{sentence(names.join(', '))}</span>
      <span className="did-amounts">
        <span className="did-before">{length(before, 'none')}</span>
        <b className={after !== null && after < 0 ? 'touch' : ''}>
          {length(after, unit === 'in' ? 'prime' : 'unit')}
        </b>
      </span>
      <span className="note did-note">
        <Sentence text={note} />
      </span>
      <span className="did-bar" aria-hidden="true">
        <i className="did-zero" style={{ left: `${100 * zero}%` }} />
        {after !== null && (
          <i
            className={after < 0 ? 'did-is touch' : 'did-is'}
            style={{ ...span(after), backgroundColor: `var(--gap-${GAP_STEPS[step] ?? 'far'})` }}
          />
        )}
        {before !== null && <i className="did-was" style={span(before)} />}
      </span>
    </li>
  );
}

/** A finding that is no gap. */
function Other({ told, finding, word }: { told: Told; finding: Finding; word: 'went' | 'came' }) {
  return (
    <li className="did-row">
      <span className="did-names">{findingWords(told, finding).title}</span>
      <span className={`did-word ${word}`}>{word}</span>
    </li>
  );
}

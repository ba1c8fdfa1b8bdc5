/** What B buys and what it costs against A, biggest first: each on one zero line, costs left and gains right. */
import { useMemo } from 'react';
import { useShop } from '../state/shop.ts';
import { Sentence } from '../words/Amount.tsx';
import { piecesOf } from './compareWords.ts';
import { Scroll } from './Scroll.tsx';
import { useBoth } from './useBoth.ts';

const KINDS = {
  gain: ['▲', 'gain'],
  cost: ['▼', 'cost'],
  other: ['', 'other'],
} as const;

export function Trade() {
  const both = useBoth();
  const unit = useShop(shop => shop.look.unit);
  const sentences = useShop(({ comparing }) => comparing?.compared.sentences[unit]);
  const rows = useMemo(
    () =>
      (sentences ?? []).map(each => ({
        ...piecesOf(each.text),
        text: each.text,
        kind:
          each.buys === null
            ? ('other' as const)
            : each.buys
              ? ('gain' as const)
              : ('cost' as const),
        size: each.size,
      })),
    [sentences],
  );
  if (!both) return <p className="note compared-note">Measuring both axles.</p>;
  const { names, stage } = both;
  const most = Math.max(1e-9, ...rows.map(({ size }) => size));
  return (
    <Scroll label="Buys and costs">
      <p className="note trade-head">
        What {names.b} buys and costs against {names.a}, biggest first. {WAITS[stage]}
      </p>
      {rows.length === 0 && (
        <p className="trade-none">
          {stage === 'measures' ? 'Nothing yet.' : 'Nothing differs by more than its tolerance.'}
        </p>
      )}
      <ol className="trade">
        {rows.map(({ text, lead, values, where, kind, size }) => (
          <li key={text} className={`trade-row ${kind}`}>
            <span className={`trade-kind ${TONES[kind]}`}>
              <i className="mark" aria-hidden="true">
                {KINDS[kind][0]}
              </i>{' '}
              {KINDS[kind][1]}
            </span>
            <span className="trade-bar" aria-hidden="true">
              <i className="trade-fill" style={{ width: `${(48 * size) / most}%` }} />
            </span>
            <span className="trade-words">
              <b>
                <Sentence text={lead} />
              </b>
              <span>
                <Sentence text={where === '' ? values : `${values}; ${where}`} />
              </span>
            </span>
          </li>
        ))}
      </ol>
    </Scroll>
  );
}

const TONES = { gain: 'is-better', cost: 'is-worse', other: '' };

const WAITS = {
  measures: 'Gaps are still being checked; they come in among these.',
  gaps: 'What each difference is worth is still being found: small ones may turn out to be none.',
  worth: '',
};

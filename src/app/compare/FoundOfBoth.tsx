/** Findings that B has fixed, that are new with it, and that both have; and the least gaps of both. */
import { useMemo } from 'react';
import type { FindingPair } from '../../../geometry/compare/findingPairs.ts';
import type { Of } from '../../../geometry/compare/places.ts';
import type { Finding } from '../../../geometry/finding/finding.ts';
import { factsOf } from '../answers/facts.ts';
import { goToPose } from '../answers/goTo.ts';
import { act } from '../state/action.ts';
import { useShop } from '../state/shop.ts';
import { AmountOf, Length, Sentence } from '../words/Amount.tsx';
import { gapOf } from '../words/findingWords.ts';
import { GapsOfBoth } from './GapsOfBoth.tsx';
import { Scroll } from './Scroll.tsx';
import { type BothKnown, useBoth } from './useBoth.ts';

export function FoundOfBoth() {
  const both = useBoth();
  if (!both) return <p className="note compared-note">Measuring both axles.</p>;
  const { names, report, stage } = both;
  if (stage === 'measures') {
    return <p className="note compared-note">Gaps of both are being checked, nearest first.</p>;
  }
  const { fixed, unchanged } = report.findings;
  return (
    <Scroll label="Findings of both">
      <div className="found-groups">
        <Group both={both} title={`Fixed or better with ${names.b}`} pairs={fixed} kind="better" />
        <Group
          both={both}
          title={`New or worse with ${names.b}`}
          pairs={report.findings.new}
          kind="worse"
        />
        <Group both={both} title="In both" pairs={unchanged} kind={null} />
      </div>
      <GapsOfBoth both={both} />
    </Scroll>
  );
}

interface GroupProps {
  both: BothKnown;
  title: string;
  pairs: readonly FindingPair[];
  kind: 'better' | 'worse' | null;
}

function Group({ both, title, pairs, kind }: GroupProps) {
  return (
    <section className="found-group">
      <h3>
        {kind && (
          <i className={`mark is-${kind}`} aria-hidden="true">
            {kind === 'better' ? '▲' : '▼'}{' '}
          </i>
        )}
        {title} <span className="sheet-count">{pairs.length}</span>
      </h3>
      {pairs.length === 0 && <p className="note">None.</p>}
      <ul>
        {pairs.map(({ a, b }) => (
          <Row key={`${a?.text ?? ''}|${b?.text ?? ''}`} both={both} a={a} b={b} />
        ))}
      </ul>
    </section>
  );
}

function Row({ both, a, b }: { both: BothKnown; a: Finding | null; b: Finding | null }) {
  const unit = useShop(shop => shop.look.unit);
  const finding = b ?? a;
  const facts = useMemo(
    () => (finding ? factsOf(b ? both.b : both.a, unit, null, finding) : null),
    [both, b, finding, unit],
  );
  if (!finding || !facts) return null;
  return (
    <li>
      <button type="button" className="found-row" onClick={() => act(goToPose, finding.pose)}>
        <span className="found-title">{facts.title}</span>
        <span className="found-where">
          <Sentence text={facts.where} />
        </span>
        <span className="found-amounts">
          <Side of="a" finding={a} unit={unit} />
          <Side of="b" finding={b} unit={unit} />
        </span>
      </button>
    </li>
  );
}

function Side({ of, finding, unit }: { of: Of; finding: Finding | null; unit: 'in' | 'mm' }) {
  const gap = finding && gapOf(finding);
  return (
    <span className={gap !== null && gap < 0 ? 'found-amount touch' : 'found-amount'}>
      <i className={`mark found-side ${of}`}>{of.toUpperCase()}</i>{' '}
      {finding === null ? (
        'none'
      ) : gap !== null ? (
        <Length inches={gap} unit={unit} fine />
      ) : (
        <AmountOf value={finding.amount.value} unit={finding.amount.unit} page={unit} />
      )}
    </span>
  );
}

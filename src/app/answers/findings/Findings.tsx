/** Everything found, worst first, on one rule: overlap left of its zero line, gap right. */
import { type KeyboardEvent, useMemo, useRef, useState } from 'react';
import { gapRule, onRule } from '../../../charts/gapRule.ts';
import { act } from '../../state/action.ts';
import { chooseFinding } from '../../state/move.ts';
import { useShop } from '../../state/shop.ts';
import { gapOf } from '../../words/findingWords.ts';
import { factsOf } from '../facts.ts';
import { ALL, type Filter, FindingFilter, passes } from './FindingFilter.tsx';
import { FindingRow } from './FindingRow.tsx';
import './Findings.css';
import { RuleHead } from './RuleHead.tsx';

export function Findings() {
  const findings = useShop(shop => shop.results.findings);
  const isFinal = useShop(shop => shop.results.isFinal);
  const range = useShop(shop => shop.results.range);
  const chosen = useShop(shop => shop.look.finding);
  const unit = useShop(shop => shop.look.unit);
  const rig = useShop(shop => shop.rig);
  const [filter, setFilter] = useState<Filter>(ALL);
  const [open, setOpen] = useState<number | null>(null);
  const list = useRef<HTMLOListElement>(null);

  const facts = useMemo(
    () => (rig ? findings.map(each => factsOf(rig, unit, range, each)) : []),
    [rig, unit, range, findings],
  );
  const rule = useMemo(
    () =>
      gapRule(
        findings.flatMap((each, i) => {
          const gap = gapOf(each);
          return gap === null ? [] : [{ gap, required: facts[i]?.required ?? null }];
        }),
        unit,
      ),
    [findings, facts, unit],
  );
  const rows = findings.flatMap((finding, index) => {
    const of = facts[index];
    return of && passes(filter, finding) ? [{ finding, index, facts: of }] : [];
  });

  const onKeyDown = (event: KeyboardEvent): void => {
    const step = { ArrowDown: 1, ArrowUp: -1, Home: -1000, End: 1000 }[event.key];
    const buttons = [...(list.current?.querySelectorAll<HTMLElement>('.finding-main') ?? [])];
    const at = buttons.indexOf(document.activeElement as HTMLElement);
    if (step === undefined || at < 0) return;
    event.preventDefault();
    event.stopPropagation();
    buttons[Math.max(0, Math.min(buttons.length - 1, at + step))]?.focus();
  };

  return (
    <>
      <div className="sheet-head findings-head">
        <FindingFilter
          findings={findings}
          filter={filter}
          setFilter={setFilter}
          shown={rows.length}
        />
        <RuleHead rule={rule} unit={unit} />
      </div>
      <ol
        className="findings"
        style={{ ['--zero' as string]: `${100 * onRule(rule, 0)}%` }}
        ref={list}
        onKeyDown={onKeyDown}
        aria-label="Findings, worst first"
      >
        {rows.map(({ finding, index, facts: of }) => (
          <FindingRow
            key={`${finding.kind} ${finding.parts.join('|')} ${finding.limit ?? ''} ${finding.text}`}
            finding={finding}
            facts={of}
            number={index + 1}
            rule={rule}
            unit={unit}
            isChosen={chosen === index}
            isOpen={open === index}
            choose={() => act(chooseFinding, index)}
            toggle={() => setOpen(open === index ? null : index)}
          />
        ))}
        {rows.length === 0 && (
          <li className="findings-none">
            {findings.length > 0
              ? 'None of the findings passes the filter.'
              : isFinal
                ? 'Nothing found that touches, comes too close or passes a limit. Parts are taken as rigid, and only what is entered is compared.'
                : 'Nothing found so far. Pairs of parts are still being checked.'}
          </li>
        )}
        {!isFinal && rows.length > 0 && (
          <li className="findings-none">More may follow: pairs are still being checked.</li>
        )}
      </ol>
    </>
  );
}

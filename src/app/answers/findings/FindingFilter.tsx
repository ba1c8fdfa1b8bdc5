/** Which findings are shown: all, a severity, or those of one part. */
import {
  Select,
  SelectGroup,
  SelectGroupLabel,
  SelectItem,
  SelectPopover,
  SelectProvider,
} from '@ariakit/react';
import { useMemo } from 'react';
import type { Finding, Severity } from '../../../../geometry/finding/finding.ts';
import { partWords, sentence } from '../../../../geometry/finding/words.ts';
import { useShop } from '../../state/shop.ts';
import { pageShop } from '../../words/shopWords.ts';

/** `all`, `severity:…` or `part:…`: a select holds words. */
export type Filter = string;
export const ALL: Filter = 'all';

const SEVERITY_WORDS: Record<Severity, string> = {
  mustFix: 'Must be fixed',
  watch: 'To be watched',
  note: 'To be known',
};

export function passes(filter: Filter, { severity, parts }: Finding): boolean {
  if (filter.startsWith('severity:')) return filter === `severity:${severity}`;
  if (filter.startsWith('part:')) return parts.some(part => filter === `part:${wholeOf(part)}`);
  return true;
}

/** 'left lower link.axle' → 'left lower link'. */
const wholeOf = (part: string): string => part.split('.')[0] ?? part;

export interface FindingFilterProps {
  findings: readonly Finding[];
  filter: Filter;
  setFilter(filter: Filter): void;
  shown: number;
}

export function FindingFilter({ findings, filter, setFilter, shown }: FindingFilterProps) {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const severities = useMemo(
    () =>
      (Object.keys(SEVERITY_WORDS) as Severity[]).filter(each =>
        findings.some(({ severity }) => severity === each),
      ),
    [findings],
  );
  const parts = useMemo(() => {
    const counts = new Map<string, number>();
    for (const { parts: of } of findings) {
      for (const part of new Set(of.map(wholeOf))) counts.set(part, (counts.get(part) ?? 0) + 1);
    }
    return [...counts].sort((a, b) => b[1] - a[1]);
  }, [findings]);
  if (!rig || findings.length === 0) return null;
  const shop = pageShop(rig.build, unit);
  const words = (part: string): string => sentence(partWords(shop, rig.axle, part));
  const label =
    filter === ALL
      ? 'All'
      : filter.startsWith('part:')
        ? words(filter.slice(5))
        : SEVERITY_WORDS[filter.slice(9) as Severity];
  return (
    <SelectProvider value={filter} setValue={setFilter}>
      <Select className="quiet-select" aria-label="Show findings">
        <span className="quiet-select-label">{label}</span>
        {filter !== ALL && <span className="note">{shown}</span>}
        <svg viewBox="0 0 12 8" width="11" height="8" aria-hidden="true">
          <path d="M1 1.5 6 6.5 11 1.5" />
        </svg>
      </Select>
      <SelectPopover className="menu" gutter={4} portal>
        <SelectItem className="menu-item" value={ALL}>
          All <small>{findings.length}</small>
        </SelectItem>
        {severities.map(each => (
          <SelectItem className="menu-item" key={each} value={`severity:${each}`}>
            {SEVERITY_WORDS[each]}
            <small>{findings.filter(({ severity }) => severity === each).length}</small>
          </SelectItem>
        ))}
        <SelectGroup>
          <SelectGroupLabel className="menu-label">With one part</SelectGroupLabel>
          {parts.map(([part, count]) => (
            <SelectItem className="menu-item" key={part} value={`part:${part}`}>
              {words(part)} <small>{count}</small>
            </SelectItem>
          ))}
        </SelectGroup>
      </SelectPopover>
    </SelectProvider>
  );
}

/** What a finding says in full, its section in large, and every entered number that it hangs on. */
import { useMemo } from 'react';
import type { Finding } from '../../../../geometry/finding/finding.ts';
import { lengthWords, partWords, sentence } from '../../../../geometry/finding/words.ts';
import { act } from '../../state/action.ts';
import { setLook } from '../../state/look.ts';
import { useShop } from '../../state/shop.ts';
import { Sentence } from '../../words/Amount.tsx';
import { pathWords } from '../../words/pathWords.ts';
import { pageShop } from '../../words/shopWords.ts';
import { Chip, EntryRow } from '../EntryRow.tsx';
import '../Entries.css';
import { type FindingFacts, pairOf } from '../facts.ts';
import { PairSection } from '../PairSection.tsx';
import './FindingDetail.css';
import { WishForm } from './WishForm.tsx';

export interface FindingDetailProps {
  id: string;
  finding: Finding;
  facts: FindingFacts;
}

export function FindingDetail({ id, finding, facts }: FindingDetailProps) {
  const rig = useShop(shop => shop.rig);
  const unit = useShop(shop => shop.look.unit);
  const gaps = useShop(shop => shop.results.gaps);
  const pair = useMemo(() => pairOf(gaps, finding), [gaps, finding]);
  const entries = useMemo(() => {
    const paths = new Set(finding.hangsOn);
    return (rig?.build.entries ?? []).filter(({ path }) => paths.has(path));
  }, [rig, finding]);
  if (!rig) return null;
  const shop = pageShop(rig.build, unit);
  const assumed = entries.filter(({ from }) => from === 'assumed').length;
  const parts = finding.parts
    .map(name => rig.parts.find(part => part.name === name))
    .filter(part => part !== undefined);
  const guessed = parts
    .filter(part => part.assumed)
    .map(({ name }) => partWords(shop, rig.axle, name));
  return (
    <div className="finding-detail" id={id}>
      <div className="detail-top">
        {pair && (
          <figure className={pair.gap_in < 0 ? 'detail-section touch' : 'detail-section'}>
            <PairSection pair={pair} />
          </figure>
        )}
        <div className="detail-words">
          <p>
            <Sentence text={finding.text} />
          </p>
          {pair && facts.required !== null && (
            <p className="note">
              <Sentence
                text={`${lengthWords(shop, facts.required)} is wanted here${pair.why ? `: ${pair.why}` : ', common practice'}, with what the parts may give in it. ${pair.lower_in === null ? 'Searched from samples, not proved: another pose may be tighter.' : `Proved: nowhere under ${lengthWords(shop, pair.lower_in)}.`} The cut is square to the touch, at the pose of this finding.`}
              />
            </p>
          )}
          <div className="detail-parts">
            {parts.map(({ name }) => (
              <button
                key={name}
                type="button"
                className="quiet"
                onClick={() => act(setLook, { sheet: 'parts', part: name })}
              >
                {sentence(partWords(shop, rig.axle, name))}
              </button>
            ))}
          </div>
        </div>
      </div>
      {pair && <WishForm key={`${pair.a}|${pair.b}`} pair={pair} />}
      <h3>
        Hangs on {entries.length === 1 ? '1 entered number' : `${entries.length} entered numbers`}
        {finding.assumed && (
          <Chip
            assumed
            text={
              assumed > 0
                ? `${assumed} assumed`
                : guessed.length > 0
                  ? `sizes of the ${guessed.join(' and ')} assumed`
                  : 'hangs on an assumption'
            }
          />
        )}
      </h3>
      <ul className="entries">
        <li className="entries-head" aria-hidden="true">
          <span>Field</span>
          <span>As typed</span>
          <span>As understood</span>
          <span>From</span>
        </li>
        {entries.map(entry => {
          const { name, field } = pathWords(entry.path);
          return (
            <EntryRow
              key={entry.path}
              entry={entry}
              unit={unit}
              field={field === '' ? name : `${name}: ${field}`}
            />
          );
        })}
      </ul>
    </div>
  );
}

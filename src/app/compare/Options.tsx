/** Alternatives of one part: where each candidate clears, where not, and what else it changes. */
import { useEffect, useState } from 'react';
import type { CandidateTold, GapThere } from '../../worker/compareProtocol.ts';
import { goToPose } from '../answers/goTo.ts';
import { capital } from '../frame/variantNames.ts';
import { act } from '../state/action.ts';
import { type Shop, useShop } from '../state/shop.ts';
import { Length, Sentence } from '../words/Amount.tsx';
import { pageShop } from '../words/shopWords.ts';
import { useAskedTable } from './askedTable.ts';
import { besideCandidate } from './chooseBeside.ts';
import { pairWords, piecesOf } from './compareWords.ts';
import { Scroll } from './Scroll.tsx';
import { type Candidates, useCandidates } from './useCandidates.ts';

const NONE: NonNullable<NonNullable<Shop['opened']>['file']['alternatives']> = [];

export function Options() {
  const alternatives = useShop(({ opened }) => opened?.file.alternatives ?? NONE);
  const [found, ask] = useCandidates();
  const asked = useAskedTable(({ alternative }) => alternative);
  useEffect(() => {
    if (asked === null) return;
    useAskedTable.setState({ alternative: null });
    ask(asked);
  }, [asked, ask]);
  if (alternatives.length === 0) {
    return <p className="note compared-note">The build holds no alternatives of a part.</p>;
  }
  return (
    <>
      <div className="numbers-head">
        <fieldset className="views" aria-label="Alternatives of">
          {alternatives.map(({ name, options }) => (
            <button
              key={name}
              type="button"
              aria-pressed={found?.alternative === name}
              onClick={() => ask(name)}
            >
              {capital(name)}
              <small>{options.length}</small>
            </button>
          ))}
        </fieldset>
      </div>
      <Scroll label="Alternatives of one part">
        {found ? (
          <Table found={found} />
        ) : (
          <p className="note">
            Choose a part: each candidate for it is walked with all that it needs, and its gaps are
            searched.
          </p>
        )}
      </Scroll>
    </>
  );
}

function Table({ found }: { found: Candidates }) {
  const { list, rows, isDone, alternative } = found;
  const asBuilt = rows.find(({ option }) => option === null);
  return (
    <table className="compared-table options">
      <caption className="note">
        Candidates for the {alternative}: pairs with a part that each changes or brings along. Parts
        rigid; searched, not proved.{!isDone && ' Still being walked.'}
      </caption>
      <thead>
        <tr>
          <th scope="col">Candidate</th>
          <th scope="col">Hits</th>
          <th scope="col">Short</th>
          <th scope="col">Clear</th>
          <th scope="col">Tightest, and what else it changes</th>
        </tr>
      </thead>
      <tbody>
        <Row name="As it stands" row={asBuilt ?? null} note={null} choose={null} />
        {list.map(({ candidate, refused }) => {
          const { option, needs, why } = candidate;
          const only = needs.map(need => `${need.option} (${need.alternative})`).join(', ');
          const note = refused
            ? `Can’t be built: ${refused}`
            : [only && `Only with ${only}.`, why].filter(Boolean).join(' ');
          return (
            <Row
              key={option}
              name={capital(option)}
              row={rows.find(each => each.option === option) ?? null}
              note={note || null}
              choose={refused ? null : () => void besideCandidate(alternative, option)}
            />
          );
        })}
      </tbody>
    </table>
  );
}

interface RowProps {
  name: string;
  row: CandidateTold | null;
  note: string | null;
  choose: (() => void) | null;
}

/** Changes that are told before the rest is asked for. */
const FEW = 3;

function Row({ name, row, note, choose }: RowProps) {
  const [isWhole, setWhole] = useState(false);
  const worst = row?.touches[0] ?? row?.short[0] ?? null;
  const changes = row?.changes ?? [];
  return (
    <tr>
      <th scope="row">
        <b>{name}</b>
        {note && <small>{note}</small>}
        {choose && (
          <button type="button" className="quiet" onClick={choose}>
            Set beside as B
          </button>
        )}
      </th>
      <td className={row && row.touches.length > 0 ? 'touch' : ''}>{row?.touches.length ?? '…'}</td>
      <td>{row?.short.length ?? '…'}</td>
      <td>{row?.clear ?? '…'}</td>
      <td className="options-more">
        {worst && <Worst gap={worst} />}
        <ul>
          {changes.slice(0, isWhole ? changes.length : FEW).map(({ text, buys }) => (
            <li key={text} className={buys === null ? '' : buys ? 'is-better' : 'is-worse'}>
              {buys !== null && <span aria-hidden="true">{buys ? '▲ ' : '▼ '}</span>}
              <Sentence text={piecesOf(text).lead} />
            </li>
          ))}
        </ul>
        {changes.length > FEW && (
          <button type="button" className="quiet" onClick={() => setWhole(!isWhole)}>
            {isWhole ? 'Fewer' : `${changes.length - FEW} more`}
          </button>
        )}
      </td>
    </tr>
  );
}

function Worst({ gap }: { gap: GapThere }) {
  const rig = useShop(shop => shop.rig);
  const other = useShop(({ comparing }) => comparing?.other?.rig ?? null);
  const unit = useShop(({ look }) => look.unit);
  if (!rig) return null;
  const shop = pageShop(rig.build, unit);
  return (
    <button type="button" className="quiet" onClick={() => act(goToPose, gap.pose)}>
      {pairWords(shop, rig, other ?? rig, [gap.a, gap.b])}{' '}
      <span className={gap.gap_in < 0 ? 'touch' : ''}>
        <Length inches={gap.gap_in} unit={unit} fine />
      </span>{' '}
      of <Length inches={gap.required_in} unit={unit} />
    </button>
  );
}

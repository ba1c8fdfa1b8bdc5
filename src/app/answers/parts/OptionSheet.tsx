/** One candidate for a part: why, what it has otherwise than the base, what it brings along and needs. */
import { useState } from 'react';
import type { Choice, Option } from '../../../../geometry/build/alternatives.ts';
import { besideCandidate } from '../../compare/chooseBeside.ts';
import { startComparing } from '../../compare/comparing.ts';
import { useBaseFile } from '../../edit/base.ts';
import {
  removeOption,
  renameOption,
  sayWhy,
  setNeeds,
  variantOf,
} from '../../edit/editAlternatives.ts';
import { act } from '../../state/action.ts';
import { useShop } from '../../state/shop.ts';
import { AddChange } from './AddChange.tsx';
import { ChangeList } from './ChangeList.tsx';
import { NameField } from './NameField.tsx';
import { WishProblem } from './NewName.tsx';
import type { Thing } from './things.ts';

interface OptionSheetProps {
  choice: Choice;
  option: Option;
  /** Address of the part that it is a candidate for. */
  part: string;
  things: readonly Thing[];
}

export function OptionSheet({ choice, option, part, things }: OptionSheetProps) {
  const file = useBaseFile();
  const [problem, setProblem] = useState<string | null>(null);
  if (!file) return null;
  const { name, needs, why } = option;
  const beside = (): void => {
    if (!useShop.getState().comparing) act(startComparing);
    void besideCandidate(choice.alternative, choice.option);
  };
  const needed = needs ?? [];
  const others = (file.alternatives ?? [])
    .filter(each => each.name !== choice.alternative)
    .flatMap(each => each.options.map(o => ({ alternative: each.name, option: o.name })))
    .filter(each => !needed.some(need => isSame(need, each)));
  return (
    <section className="option" aria-label={name}>
      <div className="option-head">
        <NameField
          label={`Name of ${name}`}
          className="option-name"
          name={name}
          take={called => void renameOption(choice, called).then(setProblem)}
        />
        <NameField
          label={`Why ${name}`}
          className="option-why"
          placeholder="Why one would take it"
          name={why ?? ''}
          mayBeEmpty
          take={words => void sayWhy(choice, words).then(setProblem)}
        />
      </div>
      <WishProblem problem={problem} />
      <ChangeList owner={choice} set={option} part={part} onProblem={setProblem} />
      <ul>
        {needed.map(need => (
          <li key={`${need.alternative} ${need.option}`} className="option-row">
            <span className="entry-field">
              Only with {need.option} ({need.alternative})
            </span>
            <button
              type="button"
              className="quiet"
              onClick={() =>
                void setNeeds(
                  choice,
                  needed.filter(each => each !== need),
                ).then(setProblem)
              }
            >
              Or without
            </button>
          </li>
        ))}
      </ul>
      <div className="option-more">
        <AddChange owner={choice} set={option} part={part} things={things} />
        {others.length > 0 && (
          <select
            className="field"
            aria-label={`What ${name} needs`}
            value=""
            onChange={event => {
              const need = others[Number(event.target.value)];
              if (need) void setNeeds(choice, [...needed, need]).then(setProblem);
            }}
          >
            <option value="">Only with …</option>
            {others.map((each, i) => (
              <option key={`${each.alternative} ${each.option}`} value={i}>
                {each.option} ({each.alternative})
              </option>
            ))}
          </select>
        )}
      </div>
      <div className="option-actions">
        <button type="button" className="quiet" onClick={beside}>
          Set beside as B
        </button>
        <button
          type="button"
          className="quiet"
          onClick={() => void variantOf(name, [...needed, choice]).then(setProblem)}
        >
          Make it a variant
        </button>
        <button
          type="button"
          className="quiet"
          onClick={() => void removeOption(choice).then(setProblem)}
        >
          Take out
        </button>
      </div>
    </section>
  );
}

const isSame = (a: Choice, b: Choice): boolean =>
  a.alternative === b.alternative && a.option === b.option;

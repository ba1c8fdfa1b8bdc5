/** What of a part is chosen and not typed: its kind, its joints, what it rides on. */
import { useMemo, useState } from 'react';
import { type Chosen, choicesOf, type PartChoice } from '../../../../geometry/build/partChoices.ts';
import { useBaseFile } from '../../edit/base.ts';
import { chooseOf } from '../../edit/editParts.ts';
import { meshBodies } from '../../mesh/meshBodies.ts';
import { useShop } from '../../state/shop.ts';
import { WishProblem } from './NewName.tsx';
import type { Thing } from './things.ts';

export function PartChoices({ thing: { address, name } }: { thing: Thing }) {
  const file = useBaseFile();
  const variant = useShop(shop => shop.variant);
  const rig = useShop(shop => shop.rig);
  const [problem, setProblem] = useState<string | null>(null);
  const choices = useMemo(
    () => (file && rig ? choicesOf({ file, variant }, address, meshBodies(rig)) : []),
    [file, rig, variant, address],
  );
  if (choices.length === 0) return null;
  return (
    <div className="part-choices">
      {choices.map(choice => (
        <Choice
          key={choice.field}
          choice={choice}
          choose={(to, words) =>
            void chooseOf(
              address,
              choice,
              to,
              `${name}, ${choice.label.toLowerCase()}: ${words}`,
            ).then(setProblem)
          }
        />
      ))}
      <WishProblem problem={problem} />
    </div>
  );
}

interface ChoiceProps {
  choice: PartChoice;
  choose(to: Chosen, words: string): void;
}

function Choice({ choice: { label, now, options }, choose }: ChoiceProps) {
  // a body that is not offered is one all the same
  const isKnown = options.some(([value]) => value === now);
  const all = isKnown ? options : [[now, String(now)] as const, ...options];
  return (
    <label>
      <span>{label}</span>
      <select
        className="field"
        value={String(now)}
        onChange={event => {
          const to = all.find(([value]) => String(value) === event.target.value);
          if (to) choose(to[0], to[1].toLowerCase());
        }}
      >
        {all.map(([value, words]) => (
          <option key={String(value)} value={String(value)}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

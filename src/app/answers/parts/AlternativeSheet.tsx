/** The candidates for one part, each with what it changes, and the way to the table of them. */
import { useState } from 'react';
import { partName } from '../../../../geometry/build/address.ts';
import type { Alternative } from '../../../../geometry/build/alternatives.ts';
import { showTable } from '../../compare/askedTable.ts';
import { addOption, removeAlternative, renameAlternative } from '../../edit/editAlternatives.ts';
import { NameField } from './NameField.tsx';
import { NewName, WishProblem } from './NewName.tsx';
import { OptionSheet } from './OptionSheet.tsx';
import type { Thing } from './things.ts';

interface AlternativeSheetProps {
  alternative: Alternative;
  things: readonly Thing[];
  onRenamed(name: string): void;
}

export function AlternativeSheet({ alternative, things, onRenamed }: AlternativeSheetProps) {
  const { name, part, options } = alternative;
  const [problem, setProblem] = useState<string | null>(null);
  const rename = (called: string): void =>
    void renameAlternative(name, called).then(refused => {
      setProblem(refused);
      if (refused === null) onRenamed(called);
    });
  return (
    <>
      <header className="alternative-head">
        <NameField
          label="Name of these alternatives"
          className="alternative-name"
          name={name}
          take={rename}
        />
        <button type="button" className="button" onClick={() => showTable(name)}>
          Table of them
        </button>
        <button
          type="button"
          className="quiet"
          onClick={() => void removeAlternative(name).then(setProblem)}
        >
          Take out
        </button>
      </header>
      <p className="note thing-note">
        Candidates for the {partName(part)}. The build holds the one that is built now; each of
        these says what it has otherwise.
      </p>
      <WishProblem problem={problem} />
      {options.map(each => (
        <OptionSheet
          key={each.name}
          choice={{ alternative: name, option: each.name }}
          option={each}
          part={part}
          things={things}
        />
      ))}
      <NewName
        label="Name of another candidate"
        placeholder="Name of another candidate"
        button="Add it"
        such="bent bar"
        take={option => addOption({ alternative: name, option })}
      />
    </>
  );
}

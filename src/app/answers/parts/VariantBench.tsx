/** Variants of the build: made of what is shown, named, shown and taken out. */
import { type FormEvent, useState } from 'react';
import { newVariant, removeVariant, renameVariant } from '../../edit/editParts.ts';
import { showVariant } from '../../files/openFiles.ts';
import { BASE, capital } from '../../frame/variantNames.ts';
import { useShop } from '../../state/shop.ts';

/** Variants in the order of the file. */
const NONE: readonly { name: string; changes?: readonly unknown[] | null | undefined }[] = [];

export function VariantBench() {
  const variants = useShop(shop => shop.opened?.file.variants ?? NONE);
  const shown = useShop(shop => shop.variant);
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const make = (event: FormEvent): void => {
    event.preventDefault();
    const called = name.trim();
    if (called === '') {
      setProblem('Write what it is called, such as raised drag link');
      return;
    }
    void newVariant(called).then(refused => {
      setProblem(refused);
      if (refused === null) setName('');
    });
  };
  return (
    <div className="variants-bench">
      <p className="note">
        What is changed while a variant is shown is the variant's own; the base stays as it is.
        Values that differ from the base are marked.
      </p>
      <ul>
        <Row name={null} count={0} isShown={shown === null} onProblem={setProblem} />
        {variants.map(variant => (
          <Row
            key={variant.name}
            name={variant.name}
            count={variant.changes?.length ?? 0}
            isShown={shown === variant.name}
            onProblem={setProblem}
          />
        ))}
      </ul>
      <form onSubmit={make}>
        <input
          className="field"
          aria-label="Name of the new variant"
          placeholder="Name of a new variant"
          value={name}
          autoComplete="off"
          onChange={event => setName(event.target.value)}
        />
        <button type="submit" className="button">
          {shown === null ? 'Make it of the base' : `Make it of ${shown}`}
        </button>
      </form>
      {problem !== null && (
        <p className="wish-problem" role="alert">
          {problem}.
        </p>
      )}
    </div>
  );
}

interface RowProps {
  /** Null: the base. */
  name: string | null;
  count: number;
  isShown: boolean;
  onProblem(problem: string | null): void;
}

function Row({ name, count, isShown, onProblem }: RowProps) {
  const [text, setText] = useState(name ?? '');
  const rename = (): void => {
    const called = text.trim();
    if (name === null || called === name || called === '') setText(name ?? '');
    else void renameVariant(name, called).then(onProblem);
  };
  return (
    <li>
      {name === null ? (
        <span className="variants-name">{capital(BASE)}</span>
      ) : (
        <input
          className="field variants-name"
          aria-label={`Name of ${name}`}
          value={text}
          autoComplete="off"
          onChange={event => setText(event.target.value)}
          onBlur={rename}
          onKeyDown={event => {
            if (event.key === 'Enter') event.currentTarget.blur();
          }}
        />
      )}
      <span className="note">
        {name === null ? '' : count === 1 ? '1 value of its own' : `${count} values of its own`}
      </span>
      <button
        type="button"
        className="quiet"
        aria-pressed={isShown}
        onClick={() => void showVariant(name)}
      >
        {isShown ? 'Shown' : 'Show'}
      </button>
      {name !== null && (
        <button
          type="button"
          className="quiet"
          onClick={() => void removeVariant(name).then(onProblem)}
        >
          Take out
        </button>
      )}
    </li>
  );
}

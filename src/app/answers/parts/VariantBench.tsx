/** Variants of the build: made of what is shown, named, shown and taken out. */
import { useState } from 'react';
import type { BuildFile } from '../../../../geometry/build/schema/file.ts';
import { newVariant, removeVariant, renameVariant } from '../../edit/editParts.ts';
import { showVariant } from '../../files/openFiles.ts';
import { BASE, capital } from '../../frame/variantNames.ts';
import { useShop } from '../../state/shop.ts';
import { ChangeList } from './ChangeList.tsx';
import { NameField } from './NameField.tsx';
import { NewName, WishProblem } from './NewName.tsx';

type Variant = NonNullable<BuildFile['variants']>[number];

/** Variants in the order of the file. */
const NONE: readonly Variant[] = [];

export function VariantBench() {
  const variants = useShop(shop => shop.opened?.file.variants ?? NONE);
  const shown = useShop(shop => shop.variant);
  const [problem, setProblem] = useState<string | null>(null);
  return (
    <div className="variants-bench">
      <p className="note">
        What is changed while a variant is shown is the variant's own; the base stays as it is.
        Values that differ from the base are marked.
      </p>
      <ul>
        <Row variant={null} isShown={shown === null} onProblem={setProblem} />
        {variants.map(variant => (
          <Row
            key={variant.name}
            variant={variant}
            isShown={shown === variant.name}
            onProblem={setProblem}
          />
        ))}
      </ul>
      <NewName
        label="Name of the new variant"
        placeholder="Name of a new variant"
        button={shown === null ? 'Make it of the base' : `Make it of ${shown}`}
        such="raised drag link"
        take={newVariant}
      />
      <WishProblem problem={problem} />
    </div>
  );
}

interface RowProps {
  /** Null: the base. */
  variant: Variant | null;
  isShown: boolean;
  onProblem(problem: string | null): void;
}

function Row({ variant, isShown, onProblem }: RowProps) {
  const [isOpen, setOpen] = useState(isShown);
  const name = variant?.name ?? null;
  const count = countOf(variant);
  return (
    <li>
      <div className="variants-row">
        {variant === null ? (
          <span className="variants-name">{capital(BASE)}</span>
        ) : (
          <NameField
            label={`Name of ${variant.name}`}
            className="variants-name"
            name={variant.name}
            take={called => void renameVariant(variant.name, called).then(onProblem)}
          />
        )}
        {count > 0 ? (
          <button
            type="button"
            className="quiet variants-count"
            aria-expanded={isOpen}
            onClick={() => setOpen(!isOpen)}
          >
            {count === 1 ? '1 value of its own' : `${count} values of its own`}
          </button>
        ) : (
          <span className="note variants-count">{variant === null ? '' : 'As the base'}</span>
        )}
        <button
          type="button"
          className="quiet"
          aria-pressed={isShown}
          onClick={() => void showVariant(name)}
        >
          {isShown ? 'Shown' : 'Show'}
        </button>
        {variant !== null && (
          <button
            type="button"
            className="quiet"
            onClick={() => void removeVariant(variant.name).then(onProblem)}
          >
            Take out
          </button>
        )}
      </div>
      {variant !== null && isOpen && count > 0 && (
        <div className="variants-own">
          {(variant.choose ?? []).map(({ alternative, option }) => (
            <p key={`${alternative} ${option}`} className="note">
              Takes {option} ({alternative}).
            </p>
          ))}
          <ChangeList owner={{ variant: variant.name }} set={variant} onProblem={onProblem} />
        </div>
      )}
    </li>
  );
}

const countOf = (variant: Variant | null): number =>
  [variant?.changes, variant?.add, variant?.remove, variant?.choose].reduce(
    (sum, list) => sum + (list?.length ?? 0),
    0,
  );

/** The top of the page: what is open, what the worker is at, and how lengths are shown. */
import { CompareButton } from '../compare/CompareButton.tsx';
import { act } from '../state/action.ts';
import { chooseUnit } from '../state/look.ts';
import { useShop } from '../state/shop.ts';
import { BuildMenu } from './BuildMenu.tsx';
import { Mark } from './Mark.tsx';
import { MoreMenu } from './MoreMenu.tsx';
import { Progress } from './Progress.tsx';
import { Steps } from './Steps.tsx';
import './TopBar.css';
import { Variants } from './Variants.tsx';

export function TopBar() {
  const unit = useShop(shop => shop.look.unit);
  return (
    <header className="top">
      <div className="brand">
        <Mark />
        Axlewalk
      </div>
      <BuildMenu />
      <Variants />
      <CompareButton />
      <Progress />
      <Steps />
      <fieldset className="choice unit">
        <legend className="visually-hidden">Lengths in</legend>
        {(['in', 'mm'] as const).map(each => (
          <button
            key={each}
            type="button"
            aria-pressed={unit === each}
            onClick={() => act(chooseUnit, each)}
          >
            {each}
          </button>
        ))}
      </fieldset>
      <MoreMenu />
    </header>
  );
}

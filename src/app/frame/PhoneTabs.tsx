/** The foot of a phone's page: which part of it fills the screen. */
import { act } from '../state/action.ts';
import { choosePhoneTab } from '../state/look.ts';
import { type Look, useShop } from '../state/shop.ts';
import './PhoneTabs.css';

const TABS: readonly (readonly [Look['phoneTab'], string])[] = [
  ['walk', 'Walk'],
  ['findings', 'Findings'],
  ['charts', 'Charts'],
  ['parts', 'Parts'],
  ['tape', 'Tape'],
];

/** While two axles are compared: both moved, or what differs. */
const TABS_OF_BOTH: typeof TABS = [
  ['walk', 'Walk'],
  ['charts', 'What differs'],
];

export function PhoneTabs() {
  const isComparing = useShop(shop => shop.comparing !== null);
  const chosen = useShop(shop => shop.look.phoneTab);
  const tab = isComparing && chosen !== 'walk' ? 'charts' : chosen;
  const count = useShop(shop => shop.results.findings.length);
  return (
    <nav className="phone-tabs" aria-label="Parts of the page">
      {(isComparing ? TABS_OF_BOTH : TABS).map(([name, label]) => (
        <button
          key={name}
          type="button"
          aria-current={tab === name ? 'page' : undefined}
          onClick={() => act(choosePhoneTab, name)}
        >
          {label}
          {name === 'findings' && count > 0 && <span className="count"> {count}</span>}
        </button>
      ))}
    </nav>
  );
}

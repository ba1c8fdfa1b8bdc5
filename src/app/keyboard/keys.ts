/** Keys of the page: what is pressed anywhere, and is no entry into a field, does its command. */
import { useShop } from '../state/shop.ts';
import { COMMANDS, type Command } from './commands.ts';

/** Where letters are typed or choose from a list by themselves. */
const TYPES = 'input, textarea, select, [contenteditable], [role="menu"], [role="listbox"]';
/** What Space presses by itself. */
const PRESSED =
  'button, a, summary, [role="button"], [role="tab"], [role="radio"], [role="option"], [role="menuitem"]';

type Press = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>;

/** The command that a key press is for, or null. */
export function commandOf(
  { key, ctrlKey, metaKey, altKey }: Press,
  hasLetterKeys: boolean,
): Command | null {
  if (altKey) return null;
  const isCtrl = ctrlKey || metaKey;
  const name = isCtrl ? `Ctrl+${key.toLowerCase()}` : key.length === 1 ? key.toLowerCase() : key;
  const isLetter = !isCtrl && key.length === 1 && key !== ' ';
  if (isLetter && !hasLetterKeys) return null;
  return COMMANDS.find(command => command.key === name) ?? null;
}

/** Listens from now on; ends with what is returned. */
export function followKeys(): () => void {
  const listen = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing || event.repeat) return;
    const { look } = useShop.getState();
    if (look.dialog !== null) return;
    const command = commandOf(event, look.hasLetterKeys);
    if (!command) return;
    const at = event.target instanceof Element ? event.target : null;
    const isCtrl = event.ctrlKey || event.metaKey;
    if (!isCtrl && at?.closest(TYPES)) return;
    if (event.key === ' ' && at?.closest(PRESSED)) return;
    // a field undoes what is typed in it
    if (command.id === 'undo' || command.id === 'redo') {
      if (at?.closest('input, textarea')) return;
    }
    event.preventDefault();
    command.run();
  };
  window.addEventListener('keydown', listen);
  return () => window.removeEventListener('keydown', listen);
}

/** Exchanges A and B. Each keeps the steps that can be undone of it; what was changed in A is kept as of any build. */
import { setAside } from '../files/autosave.ts';
import { act } from '../state/action.ts';
import { useShop } from '../state/shop.ts';
import { exchange, type Other } from './comparing.ts';

export function exchangeBoth(): void {
  const { comparing, document, trial } = useShop.getState();
  const other = comparing?.other;
  // what a hand is moving is let go of first
  if (!other || !document || trial) return;
  const { temporal } = useShop;
  const { pastStates, futureStates, pause, resume } = temporal.getState();
  // variants of one file have the steps of that file
  const isOneFile = other.document.text === document.text;
  if (!isOneFile) setAside();
  pause();
  act(exchange);
  resume();
  if (isOneFile) return;
  temporal.setState(other.steps ?? { pastStates: [], futureStates: [] });
  const kept: Other['steps'] = { pastStates, futureStates };
  useShop.setState(({ comparing: now }) => ({
    comparing: now?.other ? { ...now, other: { ...now.other, steps: kept } } : now,
  }));
}

/**
 * Actions: everything that a person can do is one, a pure function of the state with its name, label and key.
 * Undo, the keyboard and the list of commands read them; `act` does one.
 *
 * @example
 * act(moveTo, { left: 4, right: -2.25 });
 */
import { type Shop, useShop } from './shop.ts';

export interface Action<Input = void> {
  /** Camel-case word, unique. */
  name: string;
  /** What it does, a few words of shop English. */
  label: string;
  /** As `KeyboardEvent.key` has it, with 'Ctrl+' before it for Control or Command. */
  key?: string;
  /** The new state, or what of it changes; the same state where nothing does. */
  run(shop: Shop, input: Input): Partial<Shop>;
}

/** Does an action. */
export function act(action: Action): void;
export function act<Input>(action: Action<Input>, input: Input): void;
export function act<Input>(action: Action<Input>, input?: Input): void {
  useShop.setState(shop => action.run(shop, input as Input));
}

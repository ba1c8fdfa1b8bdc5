/** The way from alternatives of a part to the table of them. */
import { create } from 'zustand';
import { act } from '../state/action.ts';
import { useShop } from '../state/shop.ts';
import { chooseCompareSheet, startComparing } from './comparing.ts';

/** Name of the alternatives that were asked for and whose table is not shown yet. */
export const useAskedTable = create<{ alternative: string | null }>()(() => ({
  alternative: null,
}));

export function showTable(alternative: string): void {
  useAskedTable.setState({ alternative });
  if (!useShop.getState().comparing) act(startComparing);
  act(chooseCompareSheet, 'options');
}

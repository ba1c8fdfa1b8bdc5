/** The guide over the page, at one of its pages. */
import { create } from 'zustand';
import { act } from '../state/action.ts';
import { showDialog } from '../state/look.ts';

/** Name of a page of docs/guide; the list of all where it is 'README'. */
export const useGuide = create<{ page: string }>()(() => ({ page: 'README' }));

export function openGuide(page = 'README'): void {
  useGuide.setState({ page });
  act(showDialog, 'guide');
}

/** The ways to the screens of the tape. */
import { act } from '../state/action.ts';
import { setLook, showDialog } from '../state/look.ts';
import { type TapeView, useTape } from './tapeState.ts';

/** The pictures of layouts, for a build of one's own. */
export function startNew(): void {
  useTape.setState({ isChange: false });
  act(showDialog, 'newBuild');
}

/** The sheet of the tape. */
export function showTape(view: TapeView): void {
  useTape.setState({ view });
  act(setLook, { sheet: 'tape', phoneTab: 'tape' });
}

/** Undo and redo, the list of steps between them, and saving; they appear with the first change of the build. */
import { Menu, MenuButton, MenuItem, MenuProvider } from '@ariakit/react';
import { redo, undo } from '../edit/edit.ts';
import { useSteps } from '../edit/steps.ts';
import { saveBuild } from '../files/save.ts';
import './Steps.css';
import './menu.css';

export function Steps() {
  const { done, undone } = useSteps();
  if (done.length + undone.length === 0) return null;
  return (
    <div className="steps">
      <button
        type="button"
        className="step-button"
        disabled={done.length === 0}
        aria-label="Undo"
        title={`Undo: ${done.at(-1) ?? 'nothing'}`}
        onClick={() => void undo()}
      >
        <svg viewBox="0 0 20 18" aria-hidden="true">
          <path d="M7 1 2 6l5 5M2.5 6H12a5.5 5.5 0 0 1 0 11H8" />
        </svg>
      </button>
      <button
        type="button"
        className="step-button redo"
        disabled={undone.length === 0}
        aria-label="Redo"
        title={`Redo: ${undone[0] ?? 'nothing'}`}
        onClick={() => void redo()}
      >
        <svg viewBox="0 0 20 18" aria-hidden="true">
          <path d="m13 1 5 5-5 5M17.5 6H8a5.5 5.5 0 0 0 0 11h4" />
        </svg>
      </button>
      <MenuProvider placement="bottom-end">
        <MenuButton className="step-button">
          {done.length === 1 ? '1 step' : `${done.length} steps`}
        </MenuButton>
        <Menu className="menu" gutter={4} overflowPadding={8} fitViewport portal unmountOnHide>
          {counted(undone)
            .toReversed()
            .map(({ words, count }) => (
              <MenuItem key={`redo ${count}`} className="item" onClick={() => void redo(count)}>
                <span className="note">Redo</span> {words}
              </MenuItem>
            ))}
          {counted(done.toReversed()).map(({ words, count }) => (
            <MenuItem key={`undo ${count}`} className="item" onClick={() => void undo(count)}>
              <span className="note">Undo to before</span> {words}
            </MenuItem>
          ))}
        </Menu>
      </MenuProvider>
      <button type="button" className="step-button save" onClick={() => void saveBuild()}>
        Save
      </button>
    </div>
  );
}

/** Steps with how many of them there are up to each. */
const counted = (steps: readonly string[]): { words: string; count: number }[] =>
  steps.map((words, i) => ({ words, count: i + 1 }));

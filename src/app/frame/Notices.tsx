/** What somebody has to know about the page itself: one line each, with what to do about it. */
import type { ReactNode } from 'react';
import { useShallow } from 'zustand/react/shallow';
import { pickFiles } from '../files/pickFiles.ts';
import { act } from '../state/action.ts';
import { missingMeshes } from '../state/meshes.ts';
import { dismissNotice, studyAgain } from '../state/open.ts';
import { type Shop, useShop } from '../state/shop.ts';
import './strips.css';

export function Notices() {
  const notice = useShop(shop => shop.notice);
  const failed = useShop(shop => shop.results.failed);
  const missing = useShop(useShallow(missing_));
  const broken = useShop(useShallow(broken_));
  const stuck = useShop(stuckAt);
  return (
    <div className="notices" role="status">
      {notice !== null && (
        <Notice action="Put away" onAction={() => act(dismissNotice)}>
          {notice}
        </Notice>
      )}
      {failed !== null && (
        <Notice action="Check again" onAction={() => act(studyAgain)}>
          <span className="strong">The gaps could not be checked to the end:</span> {failed}. Posing
          by hand still works; findings may be missing.
        </Notice>
      )}
      {missing.length > 0 && (
        <Notice action="Choose the file …" onAction={pickFiles}>
          <span className="strong">{missing.join(', ')} is missing.</span> Drop it here, or choose
          it. The rest goes on without it.
        </Notice>
      )}
      {broken.map(problem => (
        <Notice key={problem}>{problem}; it is left out, the rest goes on.</Notice>
      ))}
      {stuck !== null && <Notice>{stuck}</Notice>}
    </div>
  );
}

const NONE: readonly string[] = [];

const missing_ = ({ opened, document }: Shop): readonly string[] =>
  opened && document ? missingMeshes(opened.build, document.meshes) : NONE;

/** Drawn solids that could not be made although their file is here. */
const broken_ = ({ rig, document }: Shop): readonly string[] => {
  if (!rig || !document) return NONE;
  const gone = missingMeshes(rig.build, document.meshes);
  return rig.problems
    .map(({ problem }) => problem)
    .filter(problem => !gone.some(name => problem.endsWith(`give ${name} too`)));
};

/** Why the axle is not shown where it was asked to be. */
const stuckAt = ({ rig, shown }: Shop): string | null => {
  if (!rig || shown.pose) return null;
  if (shown.status === 'undecided') {
    return 'The axle cannot be followed there: the layout is at a toggle point. Move it back.';
  }
  const { part } = shown;
  return part === null
    ? 'The axle cannot be there. Move it back.'
    : `The axle cannot be there: the ${part} runs out of length. Move it back.`;
};

interface NoticeProps {
  children: ReactNode;
  action?: string;
  onAction?: () => void;
}

function Notice({ children, action, onAction }: NoticeProps) {
  return (
    <div className="strip notice">
      <p>{children}</p>
      {action && (
        <button type="button" className="button" onClick={onAction}>
          {action}
        </button>
      )}
    </div>
  );
}

/** Builds with changes that the browser keeps and no tab is at, in the menu of builds. */
import { MenuGroup, MenuGroupLabel, MenuItem, MenuSeparator } from '@ariakit/react';
import { useEffect, useState } from 'react';
import { type KeptBuild, keptBuilds } from '../files/autosave.ts';
import { openKeptBuild } from '../files/openFiles.ts';
import { titleOf } from '../state/titleOf.ts';

/** Rows that the menu has room for. */
const MOST = 5;

const WHEN = new Intl.DateTimeFormat('en-US', {
  month: 'short',
  day: 'numeric',
  hour: 'numeric',
  minute: '2-digit',
});

export function KeptItems() {
  const [kept, setKept] = useState<readonly KeptBuild[]>([]);
  useEffect(() => {
    let isGone = false;
    void keptBuilds().then(found => {
      if (!isGone) setKept(found.slice(0, MOST));
    });
    return () => {
      isGone = true;
    };
  }, []);
  if (kept.length === 0) return null;
  return (
    <>
      <MenuSeparator className="rule" />
      <MenuGroup>
        <MenuGroupLabel className="group">With your changes, kept in this browser</MenuGroupLabel>
        {kept.map(each => (
          <MenuItem key={each.key} className="item" onClick={() => void openKeptBuild(each)}>
            {titleOf(each.fileName)}
            <span className="note">{WHEN.format(each.at)}</span>
          </MenuItem>
        ))}
      </MenuGroup>
    </>
  );
}

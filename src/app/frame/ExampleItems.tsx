/** The examples of the project in a menu. */
import { MenuGroup, MenuGroupLabel, MenuItem } from '@ariakit/react';
import { EXAMPLES } from '../state/examples.ts';
import { titleOf } from '../state/titleOf.ts';

export function ExampleItems({ open }: { open(fileName: string): Promise<void> }) {
  return (
    <MenuGroup>
      <MenuGroupLabel className="group">Examples</MenuGroupLabel>
      {EXAMPLES.map(file => (
        <MenuItem key={file} className="item" onClick={() => void open(file)}>
          {titleOf(file)}
        </MenuItem>
      ))}
    </MenuGroup>
  );
}

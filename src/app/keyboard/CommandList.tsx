/** The list of commands: searched by words, done by Enter or a click, each with its key. */
import {
  Combobox,
  ComboboxGroup,
  ComboboxGroupLabel,
  ComboboxItem,
  ComboboxList,
  ComboboxProvider,
} from '@ariakit/react';
import { useMemo, useState } from 'react';
import { Over } from '../frame/Over.tsx';
import { act } from '../state/action.ts';
import { setLook, showDialog } from '../state/look.ts';
import { useShop } from '../state/shop.ts';
import './CommandList.css';
import { type Command, search } from './commands.ts';
import { KeyHint } from './KeyHint.tsx';

function doIt(command: Command): void {
  act(showDialog, null);
  command.run();
}

/** In the order in which groups first come. */
function inGroups(commands: readonly Command[]): Map<Command['group'], Command[]> {
  const groups = new Map<Command['group'], Command[]>();
  for (const command of commands) {
    const others = groups.get(command.group);
    if (others) others.push(command);
    else groups.set(command.group, [command]);
  }
  return groups;
}

export default function CommandList() {
  const [text, setText] = useState('');
  const hasLetterKeys = useShop(shop => shop.look.hasLetterKeys);
  const groups = useMemo(() => inGroups(search(text)), [text]);
  return (
    <Over title="What can I do here?">
      <ComboboxProvider value={text} setValue={setText}>
        <Combobox
          autoFocus
          autoSelect="always"
          className="search"
          placeholder="Search: pose, map, print …"
          aria-label="Search what can be done"
        />
        <ComboboxList alwaysVisible className="commands" aria-label="What can be done">
          {[...groups].map(([group, commands]) => (
            <ComboboxGroup key={group}>
              <ComboboxGroupLabel className="group">{group}</ComboboxGroupLabel>
              {commands.map(command => (
                <ComboboxItem
                  key={command.id}
                  className="command"
                  hideOnClick={false}
                  setValueOnClick={false}
                  focusOnHover
                  onClick={() => doIt(command)}
                >
                  {command.label}
                  <KeyHint command={command.id} />
                </ComboboxItem>
              ))}
            </ComboboxGroup>
          ))}
          {groups.size === 0 && <p className="none">Nothing here is called that.</p>}
        </ComboboxList>
      </ComboboxProvider>
      <label className="letters">
        <input
          type="checkbox"
          checked={hasLetterKeys}
          onChange={event => act(setLook, { hasLetterKeys: event.target.checked })}
        />
        Single letters and digits act. On map, steering and walk, arrow keys move what has the ring.
      </label>
    </Over>
  );
}

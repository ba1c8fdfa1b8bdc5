/** Builds that come by a link and go by one. */
import { act } from '../state/action.ts';
import { tell } from '../state/open.ts';
import { useShop } from '../state/shop.ts';
import { fragmentOf, isBuildLink, textOfLink } from './link.ts';
import { openText } from './openFiles.ts';

const FILE_NAME = 'from-a-link.axlewalk.json';

/** Opens what the address of the page carries; false where it carries nothing, or nothing that can be read. */
export async function openFromLink(): Promise<boolean> {
  const { hash } = location;
  if (!isBuildLink(hash)) return false;
  // a reload is to bring back what was made of it, and not the link again
  history.replaceState(null, '', location.pathname + location.search);
  const found = await textOfLink(hash);
  if (!found.ok) {
    act(tell, `The link brings no build: ${found.why}.`);
    return false;
  }
  const { document, opened } = useShop.getState();
  if (document?.step && opened) {
    const words = `Open the build of this link? Your changes of “${opened.build.name}” stay in the menu of builds.`;
    if (!window.confirm(words)) return false;
  }
  await openText(FILE_NAME, found.text);
  return useShop.getState().document?.fileName === FILE_NAME;
}

/** Opens links that are followed while the page is open; ends with what is returned. */
export function followLinks(): () => void {
  const follow = (): void => void openFromLink();
  window.addEventListener('hashchange', follow);
  return () => window.removeEventListener('hashchange', follow);
}

/** Puts a link that carries the build on the clipboard. */
export async function copyLink(): Promise<void> {
  const { document } = useShop.getState();
  if (!document) return;
  const fragment = await fragmentOf(document.text);
  if (fragment === null) {
    act(tell, 'This build is too large for a link: save it and send the file.');
    return;
  }
  const address = location.origin + location.pathname + fragment;
  try {
    await navigator.clipboard.writeText(address);
    const meshes = document.meshes.size > 0 ? ' Its mesh files are not in it.' : '';
    act(tell, `A link that carries the build is copied.${meshes}`);
  } catch {
    act(tell, 'The browser lets the page copy nothing: save the build and send the file.');
  }
}

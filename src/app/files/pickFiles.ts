/** Choosing files with the browser's own dialog. */
import { openFiles } from './openFiles.ts';

/** Asks for a build file and, with it, its meshes. */
export function pickFiles(): void {
  const input = document.createElement('input');
  input.type = 'file';
  input.multiple = true;
  input.accept = '.json,.stl,.obj,.glb';
  input.hidden = true;
  input.addEventListener('change', () => {
    void openFiles([...(input.files ?? [])]);
    input.remove();
  });
  input.addEventListener('cancel', () => input.remove());
  // Some browsers forget a field that is not on the page.
  document.body.append(input);
  input.click();
}

/** Choosing files with the browser's own dialog. */
import { openFiles } from './openFiles.ts';

const MESHES = '.stl,.obj,.glb';

/** Asks for a build file and, with it, its meshes. */
export const pickFiles = (): void => askForFiles(`.json,${MESHES}`, openFiles);

/** Asks for meshes for the build that is open. */
export const pickMeshes = (): void => askForFiles(MESHES, openFiles);

/** @param accept endings that the dialog offers */
export function askForFiles(accept: string, take: (files: File[]) => Promise<void>): void {
  const input = document.createElement('input');
  input.type = 'file';
  input.multiple = true;
  input.accept = accept;
  input.hidden = true;
  input.addEventListener('change', () => {
    void take([...(input.files ?? [])]);
    input.remove();
  });
  input.addEventListener('cancel', () => input.remove());
  // Some browsers forget a field that is not on the page.
  document.body.append(input);
  input.click();
}

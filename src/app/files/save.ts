/** Saving the build as a plain file: where the browser lets the page write one, else as a download. */
import { keepTrial } from '../edit/edit.ts';
import { act } from '../state/action.ts';
import { tell } from '../state/open.ts';
import { useShop } from '../state/shop.ts';

interface Writable {
  write(text: string): Promise<void>;
  close(): Promise<void>;
}

interface Picked {
  name: string;
  createWritable(): Promise<Writable>;
}

type Picker = (options: object) => Promise<Picked>;

const TYPE = 'application/json';

/**
 * Saves what is open under a name that is asked for, or downloads it, with what a hand holds let go before. Never
 * throws: what goes wrong is told.
 */
export async function saveBuild(): Promise<void> {
  await keepTrial();
  const { document: open } = useShop.getState();
  if (!open) return;
  const picker = (window as { showSaveFilePicker?: Picker }).showSaveFilePicker;
  try {
    if (picker) {
      const file = await picker.call(window, {
        suggestedName: open.fileName,
        types: [{ description: 'Build', accept: { [TYPE]: ['.json'] } }],
      });
      const out = await file.createWritable();
      await out.write(open.text);
      await out.close();
      act(tell, `${file.name} is saved.`);
      return;
    }
    download(open.fileName, open.text);
    act(tell, `${open.fileName} went to the downloads.`);
  } catch (error) {
    // closing the picker is no failure
    if (error instanceof DOMException && error.name === 'AbortError') return;
    const why = error instanceof Error ? error.message : String(error);
    act(tell, `${open.fileName} could not be saved: ${why}`);
  }
}

function download(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: TYPE }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
}

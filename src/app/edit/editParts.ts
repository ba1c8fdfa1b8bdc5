/** Parts added, copied and taken out, and variants made and named, by hand: one step each. */
import { addressOf, findPart, isLost, valueAt } from '../../../geometry/build/address.ts';
import { asInBase } from '../../../geometry/build/changeSets.ts';
import { appliedFile, type Edit, type Edited, withPart } from '../../../geometry/build/edit.ts';
import { type NewPart, pathOfNew } from '../../../geometry/build/newParts.ts';
import { type Chosen, type PartChoice, withChoice } from '../../../geometry/build/partChoices.ts';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import type { Hanging, TakenOut } from '../../../geometry/build/takeOut.ts';
import {
  withNewVariant,
  withoutVariant,
  withVariantCalled,
} from '../../../geometry/build/variants.ts';
import { writeBuild } from '../../../geometry/build/write.ts';
import { type Reader, theReader } from '../files/reader.ts';
import { meshBodies } from '../mesh/meshBodies.ts';
import { useShop } from '../state/shop.ts';
import { pathWords } from '../words/pathWords.ts';
import { change, keepTrial, type Refused } from './edit.ts';

export { addressOf };

/** True of parts that stand in a list and can be taken out of it. */
export const isListed = (path: string): boolean => /\["(?:[^"\\]|\\.)*"\]$/.test(path);

/** What does not fit a part that is added and goes, or why it can't be added; nothing is changed by asking. */
export const displacedBy = (part: NewPart): Promise<Hanging[] | Refused> =>
  foreseen((edited, reader) => withAdded(edited, part, reader), '');

/** @param words what is added, as the step says it */
export function addPart(part: NewPart, words: string): Promise<Refused> {
  const { rig } = useShop.getState();
  if (!rig) return Promise.resolve('no build is open');
  return change(
    `${words}: added`,
    (edited, reader) => withAdded(edited, part, reader),
    pathOfNew(part, rig.axle),
  );
}

/** Other steering takes the place of what steers, and what hangs on that goes. */
function withAdded(edited: Edited, part: NewPart, reader: Reader): TakenOut {
  const { rig } = useShop.getState();
  if (!rig) return { ok: false, message: 'no build is open' };
  const { build, axle } = rig;
  const edit = reader.withNewPart(edited, part, build, axle);
  if (!edit.ok) return edit;
  if (part.kind !== 'steering') return { ...edit, hanging: [] };
  const path = `axles["${axle.name}"].steering`;
  return reader.fitted(edited, edit, path, problemsIn(edited, reader));
}

/** What a change would take along, or why it can't be made. */
async function foreseen(
  make: (edited: Edited, reader: Reader) => TakenOut,
  path: string,
): Promise<Hanging[] | Refused> {
  await keepTrial();
  const reader = await theReader();
  const { document, variant } = useShop.getState();
  if (!document) return 'no build is open';
  const made = make({ file: reader.baseOf(document.text), variant }, reader);
  return made.ok ? made.hanging : whyItStays(path, made);
}

const problemsIn =
  ({ variant }: Edited, { read }: Reader) =>
  (file: BuildFile) => {
    const opened = read(writeBuild(file), variant);
    return opened.ok ? [] : opened.problems;
  };

/** The same part once more by another name, where the first one is. */
export function copyPart(path: string, name: string): Promise<Refused> {
  const address = addressOf(path);
  return change(
    `${name}: copied`,
    (edited): Edit => {
      const file = appliedFile(edited);
      const steps = findPart(file, address);
      if (isLost(steps)) return { ok: false, message: steps.message };
      const part = valueAt(file, steps) as { name: string };
      const list = address.slice(0, address.length - part.name.length - 1);
      return withPart(edited, list, { ...part, name });
    },
    '',
  );
}

/** What would go with a part that is taken out, or why it stays; nothing is changed by asking. */
export const hangingOn = (path: string): Promise<Hanging[] | Refused> =>
  foreseen((edited, reader) => takenFrom(edited, path, reader), path);

/** Takes a part out with all that hangs on it, as one step. */
export function removePart(path: string, name: string): Promise<Refused> {
  return change(
    `${name}: taken out`,
    (edited, reader): Edit => {
      const taken = takenFrom(edited, path, reader);
      return taken.ok ? taken : { ok: false, message: whyItStays(path, taken) };
    },
    '',
  );
}

const takenFrom = (edited: Edited, path: string, reader: Reader): TakenOut =>
  reader.takenOut(edited, path, problemsIn(edited, reader));

function whyItStays(path: string, { message, problem }: TakenOut & { ok: false }): string {
  if (!problem) return message;
  const { name } = pathWords(problem.path);
  if (/^datums\[/.test(path)) return `${name} is taped from it: tape that from elsewhere first`;
  return `It is needed: ${message || `${name}, ${problem.wanted}`}`;
}

/** A kind, a joint or a body chosen for a part. @param words of the step */
export function chooseOf(
  path: string,
  choice: Pick<PartChoice, 'field'>,
  to: Chosen,
  words: string,
): Promise<Refused> {
  const { rig } = useShop.getState();
  const bodies = rig ? meshBodies(rig) : [];
  return change(words, edited => withChoice(edited, path, choice, to, bodies), path);
}

/** Values of the shown variant as the base has them, as one step. @param words what they are called */
export function takeBase(paths: readonly string[], words: string): Promise<Refused> {
  return change(
    `${words}: as in the base`,
    edited =>
      paths.reduce<Edit>(
        (edit, path) => (edit.ok ? asInBase({ ...edited, file: edit.file }, path) : edit),
        { ok: true, file: edited.file },
      ),
    '',
  );
}

/** A variant of what is shown, which is shown from then on: what is changed then is its own. */
export function newVariant(name: string): Promise<Refused> {
  return change(`Variant ${name}: made`, edited => withNewVariant(edited, name), 'variants', name);
}

export function renameVariant(variant: string, name: string): Promise<Refused> {
  const { variant: shown } = useShop.getState();
  return change(
    `Variant ${variant}: now ${name}`,
    ({ file }) => withVariantCalled(file, variant, name),
    'variants',
    shown === variant ? name : shown,
  );
}

/** Without the variant; where it is shown, the base is. */
export function removeVariant(variant: string): Promise<Refused> {
  const { variant: shown } = useShop.getState();
  return change(
    `Variant ${variant}: taken out`,
    ({ file }) => withoutVariant(file, variant),
    'variants',
    shown === variant ? null : shown,
  );
}

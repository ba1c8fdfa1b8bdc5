/** Takes what stands in the fields of a question into the build. */
import { sentence } from '../../../geometry/finding/words.ts';
import { useShop } from '../state/shop.ts';
import { theStarter } from './starter.ts';
import { startOf } from './startOf.ts';
import { changeStart, type Refused } from './takeStart.ts';
import { answerOf, answerWords, type Draft, useTape } from './tapeState.ts';
import type { MeasuredItem } from './walkItems.ts';

/** False where it can't be right: the fields keep it, and say why. */
export async function takeDraft(item: MeasuredItem): Promise<boolean> {
  const { id } = item;
  const draft = useTape.getState().drafts[id];
  if (!draft) return true;
  const refused = await take(item, draft);
  useTape.setState(({ drafts, wrong }) => {
    const { [id]: now, ...others } = drafts;
    const { [id]: _, ...rest } = wrong;
    // it was typed on while it was read
    if (now !== draft) return { wrong: rest };
    return refused === null
      ? { wrong: rest, drafts: others }
      : { wrong: { ...rest, [id]: refused } };
  });
  return refused === null;
}

async function take({ id, label, measurement }: MeasuredItem, draft: Draft): Promise<Refused> {
  const starter = await theStarter();
  const start = startOf(useShop.getState());
  if (!start) return null;
  const answer = answerOf(draft);
  const refused = answer ? starter.wrongWith(measurement, answer, start.unit) : null;
  if (refused !== null) return refused;
  if (JSON.stringify(start.answers[id] ?? null) === JSON.stringify(answer)) return null;
  const reads =
    answer && (starter.tapedWords(measurement, answer, start.unit) ?? answerWords(answer));
  const words = `${sentence(label)}: ${reads ?? 'not taped'}`;
  return changeStart(words, now => {
    const { [id]: _, ...answers } = now.answers;
    return { ...now, answers: answer ? { ...answers, [id]: answer } : answers };
  });
}

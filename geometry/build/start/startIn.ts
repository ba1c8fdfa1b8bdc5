/** The start of a build as it is read back from its file. Reads no tape: that makes a page large. */
import type { BuildFile } from '../schema/file.ts';
import type { Answer, Start } from './answers.ts';
import { type AxleChoice, axleChoice } from './layouts.ts';

export type StartBlock = NonNullable<BuildFile['start']>;
export type AnswerBlock = StartBlock['answers'][string];

/** What the build was started from; null where it was not, or where the block is wrong. */
export function startIn(
  file: Pick<BuildFile, 'name' | 'unit' | 'driverSide' | 'start'>,
): Start | null {
  const { name, unit, start } = file;
  if (!start) return null;
  const driverSide = file.driverSide ?? 'left';
  const { stands, near } = start;
  return {
    name,
    unit,
    layout: { driverSide, axles: axlesOf(start, driverSide) },
    ...(stands
      ? {
          stands: Object.fromEntries(
            Object.entries(stands).flatMap(([key, typed]) => (typed == null ? [] : [[key, typed]])),
          ),
        }
      : {}),
    ...(near ? { near } : {}),
    answers: Object.fromEntries(
      Object.entries(start.answers).map(([id, answer]) => [id, readBack(answer)]),
    ),
  };
}

/** What is left out is as usual. */
function axlesOf({ axles }: StartBlock, driverSide: 'left' | 'right'): AxleChoice[] {
  return axles
    .map(({ name, links, steering, assistRam, straps, differential }) => {
      const usual = axleChoice(name, {}, driverSide);
      return {
        name,
        links: links ?? usual.links,
        steering: name === 'rear' ? null : (steering ?? usual.steering),
        assistRam: assistRam ?? usual.assistRam,
        straps: straps ?? usual.straps,
        differential: differential === 'middle' ? null : (differential ?? usual.differential),
      };
    })
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

function readBack(answer: AnswerBlock): Answer {
  if (typeof answer !== 'object') return { value: String(answer) };
  const value = 'value' in answer ? answer.value : answer;
  const from = 'from' in answer ? answer.from : null;
  const typed =
    typeof value === 'object'
      ? { left: String(value.left), right: String(value.right) }
      : String(value);
  return { value: typed, ...(from == null ? {} : { from }) };
}

/** From where to where the tape goes, on the vehicle as it is proposed. */
import { useMemo } from 'react';
import type { Start } from '../../../geometry/build/start/answers.ts';
import type { Measurement } from '../../../geometry/build/start/measurement.ts';
import { tapeDrawing } from '../../charts/tapeDrawing.ts';
import { Picture } from './Picture.tsx';
import type { Today } from './starting.ts';
import { answerWords, useTape } from './tapeState.ts';
import { readWords } from './WalkAround.tsx';

interface TapePictureProps {
  start: Start;
  measurement: Measurement;
  today: Today;
}

/** How one looks at a drawing. */
export const SEEN = {
  side: 'Seen from the side, front on the right',
  front: 'Seen from ahead',
  top: 'Seen from above, front up',
} as const;

export function TapePicture({ start, measurement, today }: TapePictureProps) {
  const { id, axle, from, to, view } = measurement;
  const draft = useTape(tape => tape.drafts[id]);
  // what is being typed shows once it was read
  const answer = start.answers[id];
  const datum = draft?.from ?? answer?.from ?? 'floor';
  const value = today.reads(measurement);
  const text = answer
    ? (today.taped(measurement) ?? answerWords(answer))
    : value === null
      ? '?'
      : readWords(measurement, value, start.unit);
  const picture = useMemo(() => {
    const { axles, solids, anchors } = today.drawn;
    const own = Object.entries(anchors).filter(
      ([name]) => axle === null || name === 'floor' || name.startsWith(axle),
    );
    return tapeDrawing(
      {
        axles: axles.filter(({ name }) => axle === null || name === axle),
        solids,
        anchors: Object.fromEntries(own),
      },
      view,
      [{ measurement, text, datum }],
    );
  }, [today, measurement, axle, view, text, datum]);
  return (
    <figure>
      <Picture {...picture} label={`The tape goes from the ${from} to the ${to}.`} />
      <figcaption className="note">
        {SEEN[view]}.{!answer && ' The amount is proposed, not taped.'}
      </figcaption>
    </figure>
  );
}

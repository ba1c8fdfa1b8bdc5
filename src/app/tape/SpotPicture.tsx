/** From where to where the tape goes for one number of a part, on the vehicle as it stands in the build. */
import { useMemo } from 'react';
import { sentence } from '../../../geometry/finding/words.ts';
import { pointDrawing } from '../../charts/pointDrawing.ts';
import { useShop } from '../state/shop.ts';
import { understood } from '../words/entryWords.ts';
import { pathWords } from '../words/pathWords.ts';
import { Picture } from './Picture.tsx';
import { SEEN } from './TapePicture.tsx';

interface SpotPictureProps {
  spot: string;
  /** Of the number that is being typed. */
  path: string;
}

export function SpotPicture({ spot, path }: SpotPictureProps) {
  const build = useShop(({ opened }) => opened?.build ?? null);
  const shown = useShop(shop => shop.axleName);
  const drawing = useMemo(() => {
    const of = /^axles\["(\w+)"\]/.exec(spot)?.[1] ?? shown;
    const axle = build?.axles.find(({ name }) => name === of);
    const entry = build?.entries.find(each => each.path === path);
    if (!build || !axle || !entry) return null;
    const text =
      entry.from === 'assumed' ? understood(entry.value, entry.dimension, build.unit) : entry.typed;
    const made = pointDrawing(build, axle, spot, path, text);
    return made && { ...made, isAssumed: entry.from === 'assumed', isMinus: entry.value < 0 };
  }, [build, shown, spot, path]);
  if (!drawing) return null;
  const { width, height, marks, from, view, isAssumed, isMinus } = drawing;
  const { name, field } = pathWords(path);
  // the drawing says where it is taped from
  const what = sentence([name, field.replace('from its datum, ', '')].filter(Boolean).join(', '));
  return (
    <figure className="next-picture">
      <Picture
        width={width}
        height={height}
        marks={marks}
        label={from ? `${what}: the tape goes ${from}.` : what}
      />
      <figcaption className="note">
        <span className="strong">{what}</span>
        {from && `, ${from}${isMinus ? ' (typed with a −)' : ''}`}. {SEEN[view]}.
        {isAssumed && ' The amount is assumed, not taped.'}
      </figcaption>
    </figure>
  );
}

/** A section as a picture: a 2D canvas with names in both areas and the gap as a dimension. It prints. */
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import type { Section } from './section.ts';
import { type DimensionSpot, drawSection, pictureOf } from './sectionPicture.ts';
import './SectionView.css';

export interface SectionViewProps {
  section: Section;
  names: readonly [string, string];
  /** The gap, as it is written on the dimension. */
  amount: ReactNode;
  /** All of it in words. */
  label: string;
  /** Changes when the colors do: the picture is then drawn anew. */
  theme: string;
}

export function SectionView({ section, names, amount, label, theme }: SectionViewProps) {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  const [nameA, nameB] = names;
  const [spot, setSpot] = useState<DimensionSpot | null>(null);

  useEffect(() => {
    const element = box.current;
    if (!element) return;
    const watch = new ResizeObserver(() =>
      setSize({ width: element.clientWidth, height: element.clientHeight }),
    );
    watch.observe(element);
    return () => watch.disconnect();
  }, []);

  const picture = useMemo(
    () => (size.width > 0 ? pictureOf(section, size.width, size.height, [nameA, nameB]) : null),
    [section, size, nameA, nameB],
  );

  // biome-ignore lint/correctness/useExhaustiveDependencies: the theme changes the colors that are read
  useEffect(() => {
    const element = canvas.current;
    const context = element?.getContext('2d');
    if (!element || !context || !picture) return;
    const ratio = Math.max(2, window.devicePixelRatio);
    element.width = Math.round(size.width * ratio);
    element.height = Math.round(size.height * ratio);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    const style = getComputedStyle(element);
    const color = (name: string): string => style.getPropertyValue(name).trim();
    setSpot(
      drawSection(context, picture, size, {
        a: color('--section-a'),
        b: color('--section-b'),
        ink: color('--ink'),
        page: color('--section-halo'),
        overlap: color('--gap-touch'),
        hatch: color('--section-hatch'),
      }),
    );
  }, [picture, size, theme]);

  return (
    <div className="section-view" ref={box} role="img" aria-label={label}>
      <canvas ref={canvas} />
      {[picture?.nameA, picture?.nameB].map(
        name =>
          name && (
            <span
              key={`${name.text} ${name.at[0]}`}
              className="section-name"
              style={shareOf(name.at, size)}
            >
              {name.text}
            </span>
          ),
      )}
      {spot && (
        <span className={`section-amount ${spot.align}`} style={shareOf(spot.at, size)}>
          {amount}
        </span>
      )}
    </div>
  );
}

/** A place as shares of the picture: on paper, where the picture has another size, all of it stretches alike. */
const shareOf = ([x, y]: readonly [number, number], size: { width: number; height: number }) => ({
  left: `${(100 * x) / size.width}%`,
  top: `${(100 * y) / size.height}%`,
});

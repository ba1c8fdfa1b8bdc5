/** A line drawing in the colors of the page. */
import type { Mark } from '../../charts/marks.ts';
import './Picture.css';

interface PictureProps {
  width: number;
  height: number;
  marks: readonly Mark[];
  /** What it shows, for those who don't see it; none where words beside it say the same. */
  label?: string;
}

export function Picture({ width, height, marks, label }: PictureProps) {
  return (
    <svg
      className="picture"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={label ?? ''}
      aria-hidden={label === undefined}
    >
      {marks.map(mark => (
        <Painted key={JSON.stringify(mark)} mark={mark} />
      ))}
    </svg>
  );
}

/** Units of a drawing that a letter of a tag takes, and room around them. */
const LETTER = 15;
const ROOM = 20;

function Painted({ mark }: { mark: Mark }) {
  switch (mark.kind) {
    case 'line':
      return (
        <polyline
          className={`mark-line mark-${mark.tone}`}
          points={mark.points.map(spot => spot.join(',')).join(' ')}
          strokeWidth={mark.width}
          {...(mark.isDashed ? { strokeDasharray: '6 4' } : {})}
        />
      );
    case 'circle':
      return (
        <circle
          className={`mark-${mark.tone}`}
          cx={mark.at[0]}
          cy={mark.at[1]}
          r={mark.radius}
          strokeWidth={1.5}
        />
      );
    case 'box':
      return (
        <rect
          className={`mark-${mark.tone}`}
          x={mark.at[0]}
          y={mark.at[1]}
          width={mark.size[0]}
          height={mark.size[1]}
          rx={mark.round}
          strokeWidth={1.5}
        />
      );
    case 'tag': {
      const width = mark.text.length * LETTER + ROOM;
      return (
        <g className="mark-tag">
          <rect x={mark.at[0] - width / 2} y={mark.at[1] - 21} width={width} height={42} rx={7} />
          <text x={mark.at[0]} y={mark.at[1] + 10} textAnchor="middle">
            {mark.text}
          </text>
        </g>
      );
    }
  }
}

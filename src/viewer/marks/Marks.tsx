/**
 * What is written over the picture, as SVG: names of parts, the spots where parts are nearest, construction lines.
 * React says what there is; where it goes is written into the elements as frames are drawn, and until then it is not
 * seen.
 */
import { type RefObject, useMemo } from 'react';
import type { ConstructionLine } from './construction.ts';
import type { Label } from './labels.ts';
import './Marks.css';
import type { Spot } from './spots.ts';

export interface MarksProps {
  labels: readonly Label[];
  spots: readonly Spot[];
  /** The spot of the chosen finding; it has a ring and a line to the section. */
  chosen: Spot | null;
  lines: readonly ConstructionLine[];
  svg: RefObject<SVGSVGElement | null>;
}

export function Marks({ labels, spots, chosen, lines, svg }: MarksProps) {
  const keyed = useMemo(
    () => spots.map(spot => `${spot.pair.a.name} | ${spot.pair.b.name}`),
    [spots],
  );
  return (
    <svg ref={svg} className="marks" preserveAspectRatio="xMaxYMax" aria-hidden="true">
      {lines.map(line => (
        <g key={line.id} className="mark-line" data-line={line.id} visibility="hidden">
          <path className="mark-halo" />
          <path className="mark-stroke" />
          <circle r="4" />
          <text textAnchor="middle">{line.label}</text>
        </g>
      ))}
      {spots.map((spot, i) => (
        <g
          key={keyed[i]}
          className="mark-spot"
          data-spot={keyed[i]}
          data-chosen={spot === chosen}
          visibility="hidden"
        >
          <path className="mark-halo" />
          <path className="mark-stroke" />
          <circle className="mark-halo" r="17" />
          <circle className="mark-ring" r="17" />
          <circle className="mark-ring" r="10" />
          <circle className="mark-dot" r="4" />
          <text textAnchor="middle">
            <tspan />
            <tspan className="mark-fraction" />
            <tspan />
          </text>
        </g>
      ))}
      {labels.map(label => (
        <g
          key={`${label.part} ${label.isChosen}`}
          className="mark-label"
          data-label={label.part}
          data-chosen={label.isChosen}
          visibility="hidden"
        >
          <path className="mark-leader" />
          <circle r="2.5" />
          <text textAnchor="middle" dy="0.34em">
            {label.text}
          </text>
        </g>
      ))}
    </svg>
  );
}

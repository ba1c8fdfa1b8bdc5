/** Proposed joints: kinds, limits and rates, as common as can be. */
import type { AxlePlace } from './axlePlace.ts';
import { hasTrackBar, upperLinks } from './layouts.ts';
import { wishboneBall } from './links.ts';
import { guess, type Written } from './value.ts';

interface Drawn {
  name: string;
  kind: 'rodEnd' | 'ball' | 'bushing';
  bolt: [number, number, number];
  /** deg */
  limit: number;
  housing: string;
  /** lbf/in; torsional and conical in in·lbf/deg. */
  rates?: { radial: number; axial: number; torsional: number; conical: number; bracket?: number };
  holdsRoll?: boolean;
}

const ACROSS: [number, number, number] = [0, 1, 0];
const FORE: [number, number, number] = [1, 0, 0];

const BUSHING = { radial: 45000, axial: 9000, torsional: 30, conical: 90 };
const LINK_BUSHING = { radial: 40000, axial: 8000, torsional: 30, conical: 90, bracket: 70000 };
const BAR_BUSHING = { radial: 60000, axial: 12000, torsional: 25, conical: 70, bracket: 70000 };
const ARM_BUSHING = { radial: 14000, axial: 4500, torsional: 40, conical: 260 };
const ARM_PIVOT = { radial: 9000, axial: 3500, torsional: 35, conical: 220 };

export function proposeJoints(place: AxlePlace): object[] {
  const { links } = place.choice;
  const isArm = links === 'radiusArms';
  const isOver = links === 'fourLinks';
  const drawn: Drawn[] = [
    ...(isArm
      ? [bushing('axle bushing', 8, '2 5/8', ARM_BUSHING), bushing('arm pivot', 12, '3', ARM_PIVOT)]
      : isOver
        ? [bushing('link bushing', 14, '2 3/4', LINK_BUSHING)]
        : [bushing('axle bushing', 14, '2 3/4', BUSHING), rodEnd('frame rod end', 30)]),
    ...(links === 'triangulated' ? [{ ...rodEnd('truss rod end', 28), holdsRoll: true }] : []),
    ...(links === 'triangulated' || links === 'wishbone'
      ? [rodEnd('upper frame rod end', 28)]
      : []),
    ...(isOver ? [{ ...bushing('bar bushing', 12, '2 1/4', BAR_BUSHING), bolt: FORE }] : []),
    ...(hasTrackBar(links) && !isOver
      ? [{ ...rodEnd('bar end', 24), bolt: FORE, housing: '2', holdsRoll: true }]
      : []),
  ];
  const { taped, path } = place;
  taped.rule(
    `${path}.joints`,
    isOver
      ? 'Four links and a bar are one length more than is needed: each sits in bushings at both ends, 40,000 lbf/in across the bolt for the links and 60,000 for the bar, in brackets of 70,000 lbf/in (common practice, no source).'
      : isArm
        ? 'Radius arms sit in bushings: 14,000 lbf/in at the axle, 9,000 lbf/in at the frame, bolts across (common practice, no source).'
        : `Links have a bushing at the axle and a rod end at the frame, bolts across${upperLinks(links) === 'none' ? '' : '; each with the misalignment that is common for its kind'} (common practice, no source).`,
  );
  const ball = links === 'wishbone' ? [sharedBall(place)] : [];
  return [...drawn.map(written), ...ball];
}

const rodEnd = (name: string, limit: number): Drawn => ({
  name,
  kind: 'rodEnd',
  bolt: ACROSS,
  limit,
  housing: '2 1/4',
});

const bushing = (
  name: string,
  limit: number,
  housing: string,
  rates: NonNullable<Drawn['rates']>,
): Drawn => ({ name, kind: 'bushing', bolt: ACROSS, limit, housing, rates });

function written({ name, kind, bolt, limit, housing, rates, holdsRoll }: Drawn): object {
  return {
    name,
    kind,
    bolt: bolt.map((value): Written => ({ value, from: 'assumed', tolerance: 0.05 })),
    limit: guess(`${limit} deg`, '3 deg'),
    housing: guess(`${housing} in`, '1/4 in'),
    ...(holdsRoll ? { holdsRoll } : {}),
    ...(rates ? { rates: ratesOf(rates) } : {}),
  };
}

const ratesOf = ({
  radial,
  axial,
  torsional,
  conical,
  bracket,
}: NonNullable<Drawn['rates']>): object => ({
  radial: rate(radial, 'lbf/in'),
  axial: rate(axial, 'lbf/in'),
  torsional: rate(torsional, 'in·lbf/deg'),
  conical: rate(conical, 'in·lbf/deg'),
  ...(bracket === undefined ? {} : { bracket: rate(bracket, 'lbf/in') }),
});

const rate = (value: number, unit: string): Written =>
  guess(`${value} ${unit}`, `${Math.round(value / 3)} ${unit}`);

function sharedBall(place: AxlePlace): object {
  return {
    name: 'axle ball',
    kind: 'ball',
    on: 'axle',
    at: wishboneBall(place),
    bolt: [0, 0, 1].map((value): Written => ({ value, from: 'assumed', tolerance: 0.05 })),
    limit: guess('32 deg', '4 deg'),
    housing: guess('3 1/2 in', '1/4 in'),
  };
}

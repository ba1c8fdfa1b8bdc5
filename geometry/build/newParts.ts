/** What can be added to an axle by hand, in words. What makes it stands in `withNewPart.ts`, which reads more. */
import type { Axle } from './build.ts';
import { type SteeringLayoutId, steeringLayouts } from './start/layouts.ts';

/** Parts that stand in lists, by names of their own. */
export const LISTED = {
  link: ['Links and arms', 'Link', 'links'],
  trackBar: ['Links and arms', 'Track bar', 'links'],
  joint: ['Links and arms', 'Joint for the ends of links', 'joints'],
  ram: ['Steering', 'Ram', 'steering.rams'],
  shock: ['Springs, stops and lines', 'Shock, both sides', 'shocks'],
  coil: ['Springs, stops and lines', 'Coil, both sides', 'coils'],
  bumpStop: ['Springs, stops and lines', 'Bump stop, both sides', 'bumpStops'],
  strap: ['Springs, stops and lines', 'Limit strap, both sides', 'straps'],
  brakeHose: ['Springs, stops and lines', 'Brake hose at the knuckles, both sides', 'lines'],
  line: ['Springs, stops and lines', 'Line or hose from the axle', 'lines'],
  box: ['Drawn parts', 'Box on the frame', null],
  tube: ['Drawn parts', 'Round tube on the frame', null],
  axleBox: ['Drawn parts', 'Box on the axle', null],
} as const;

/** What an axle has one of. */
const SINGLE = {
  swayBar: ['Axle and wheels', 'Sway bar'],
  housing: ['Axle and wheels', 'Axle housing with differential'],
  driveline: ['Driveline', 'Driveshaft'],
} as const;

export type ListedPart = keyof typeof LISTED;
export type SinglePart = keyof typeof SINGLE;

/** What can be added, and what of it is to be said. */
export type NewPart =
  | { kind: Exclude<ListedPart, 'ram'>; name: string }
  | { kind: 'ram'; name: string; ends: RamEnds }
  | { kind: SinglePart }
  | { kind: 'steering'; layout: SteeringLayoutId };

/** What carries a ram's body, and what its rod pushes. */
export interface RamEnds {
  body: 'axle' | 'chassis';
  rod: 'tie rod' | 'drag link' | 'left knuckle' | 'right knuckle';
}

/** What a ram can push on this axle, the most common first; nothing where none can. */
export function ramTargets({ steering, knuckles }: Axle): RamEnds['rod'][] {
  if (!steering || !knuckles) return [];
  const { dragLink, tieRods } = steering;
  return [
    ...(tieRods.length === 1 ? (['tie rod'] as const) : []),
    ...(dragLink ? (['drag link'] as const) : []),
    'left knuckle',
    'right knuckle',
  ];
}

export interface Offered {
  id: ListedPart | SinglePart | SteeringLayoutId;
  group: string;
  label: string;
  isNamed: boolean;
}

/** What can be added to an axle as it stands, in the order of lists. */
export function newPartsFor(axle: Axle): Offered[] {
  const isSteered = axle.knuckles !== null;
  const listed = Object.entries(LISTED).flatMap(([id, [group, label]]): Offered[] => {
    if (id === 'ram' && ramTargets(axle).length === 0) return [];
    if (id === 'brakeHose' && !isSteered) return [];
    return [{ id: id as ListedPart, group, label, isNamed: true }];
  });
  const has: Record<SinglePart, boolean> = {
    swayBar: axle.swayBar !== null,
    housing: axle.housing.tubeOd !== null || axle.housing.differential !== null,
    driveline: axle.driveline !== null,
  };
  const single = Object.entries(SINGLE).flatMap(([id, [group, label]]): Offered[] =>
    has[id as SinglePart] ? [] : [{ id: id as SinglePart, group, label, isNamed: false }],
  );
  const instead = axle.steering ? 'Other steering: ' : 'All of it: ';
  const steering = steeringLayouts.map(
    ({ id, label }): Offered => ({
      id,
      group: 'Steering',
      label: instead + label,
      isNamed: false,
    }),
  );
  const all = [...listed, ...(axle.name === 'front' ? steering : []), ...single];
  const groups = [...new Set([...listed, ...single].map(({ group }) => group))];
  const order = [...groups.filter(group => group !== 'Drawn parts'), 'Drawn parts'];
  return order.flatMap(group => all.filter(each => each.group === group));
}

export const isSteeringLayout = (id: Offered['id']): id is SteeringLayoutId =>
  steeringLayouts.some(each => each.id === id);

export const isSingle = (id: Offered['id']): id is SinglePart => id in SINGLE;

/** Where a part stands that is added: its path as entries write it. */
export function pathOfNew(part: NewPart, axle: Pick<Axle, 'name'>): string {
  const own = `axles["${axle.name}"]`;
  if (part.kind === 'steering') {
    return `${own}.steering.${part.layout === 'doubleRam' ? 'tieRod' : 'dragLink'}`;
  }
  if (!('name' in part)) return `${own}.${part.kind}`;
  const list = LISTED[part.kind][2];
  return `${list === null ? 'solids' : `${own}.${list}`}[${JSON.stringify(part.name)}]`;
}

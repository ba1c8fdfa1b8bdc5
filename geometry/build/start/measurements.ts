/**
 * The measurements that a new build starts from, in the order of one walk around the vehicle: wheels and tires
 * first, then links from the axle to the frame, then bar, steering, stops and pinion. What is left out is proposed.
 */
import type { AxleName } from '../build.ts';
import { type AxleChoice, hasTrackBar, type StartLayout, upperLinks } from './layouts.ts';
import type { HeightDatum, Measurement, View } from './measurement.ts';

const HEIGHT_DATUMS: readonly HeightDatum[] = ['floor', 'wheelCenter', 'railBottom'];
const degrees = Math.PI / 180;

type Draft = Omit<Measurement, 'id' | 'axle' | 'dimension' | 'datums' | 'sided' | 'tool'> &
  Partial<Measurement>;

const wheelbase: Measurement = {
  id: 'wheelbase',
  axle: null,
  label: 'wheelbase',
  question: 'How far is it from the front wheel center to the rear wheel center?',
  hint: 'Wheelbase (ISO 8855). Wheels straight ahead; drop a plumb bob from each hub and tape along the floor.',
  tool: 'plumb bob',
  view: 'side',
  from: 'front wheel center',
  to: 'rear wheel center',
  dimension: 'length',
  least: 60,
  most: 240,
  such: '112 1/4',
  sided: false,
  datums: [],
};

/** Everything that is asked for a layout, in the order of the walk. */
export function measurementsFor(layout: StartLayout): Measurement[] {
  return [wheelbase, ...layout.axles.flatMap(ofAxle)];
}

function ofAxle(choice: AxleChoice): Measurement[] {
  const drafts: [string, Draft][] = [
    ...wheels(choice.name),
    ...(choice.links === 'radiusArms' ? arm : lower),
    ...(upperLinks(choice.links) === 'none' ? [] : upper(upperLinks(choice.links) === 'pair')),
    ...(hasTrackBar(choice.links) ? bar : []),
    ...ends,
  ];
  return drafts.map(([id, draft]) => finish(choice.name, id, draft));
}

function finish(axle: AxleName, id: string, draft: Draft): Measurement {
  const here = (text: string): string => (text === 'floor' ? text : `${axle} ${text}`);
  return {
    tool: 'tape',
    dimension: 'length',
    sided: false,
    datums: [],
    ...draft,
    id: `${axle}.${id}`,
    axle,
    from: here(draft.from),
    to: here(draft.to),
  };
}

const height = (
  to: string,
  draft: Omit<Draft, 'view' | 'from' | 'to' | 'least' | 'most'> & { view?: View },
): Draft => ({
  view: 'side',
  from: 'floor',
  to,
  least: 4,
  most: 60,
  datums: HEIGHT_DATUMS,
  ...draft,
});

const wheels = (axle: AxleName): [string, Draft][] => [
  [
    'wheelHeight',
    {
      label: 'wheel center above the floor',
      question: `How high is the ${axle} wheel center above the floor?`,
      hint: 'Loaded radius. Vehicle at its own weight on a level floor, at ride height; give both sides if they differ.',
      view: 'side',
      from: 'floor',
      to: 'wheel center',
      least: 10,
      most: 30,
      such: '18 1/2',
      sided: true,
    },
  ],
  [
    'tireHeight',
    {
      label: 'tire height',
      question: `How tall is a ${axle} tire, off the ground?`,
      hint: 'Overall diameter, unloaded. Measure the tire, not what its sidewall says.',
      view: 'side',
      from: 'tire bottom',
      to: 'tire top',
      least: 22,
      most: 60,
      such: '38 1/2',
    },
  ],
  [
    'wheelCenters',
    {
      label: 'from tire middle to tire middle',
      question: `How far is it from the middle of one ${axle} tire to the middle of the other?`,
      hint: 'Track (ISO 8855). At the height of the wheel centers, wheels straight ahead.',
      view: 'front',
      from: 'left wheel center',
      to: 'right wheel center',
      least: 48,
      most: 100,
      such: '71',
    },
  ],
  [
    'railOutside',
    {
      label: 'frame, outside to outside',
      question: `How wide is the frame where the ${axle} links are bolted on, outside to outside?`,
      hint: 'Over both rails, square to them.',
      view: 'front',
      from: 'left rail outside',
      to: 'right rail outside',
      least: 20,
      most: 60,
      such: '33',
    },
  ],
  [
    'railBottom',
    height('rail bottom', {
      label: 'bottom of the frame rail',
      question: `How high is the bottom of the frame rail where the ${axle} links are bolted on?`,
      hint: 'At ride height as it stands today. Heights can be taped from here where the floor is out of reach.',
      such: '24',
      datums: ['floor', 'wheelCenter'],
    }),
  ],
];

const pairOfLink = (what: 'lower' | 'upper', isPair: boolean): [string, Draft][] => {
  const label = `${what} link`;
  const shown = isPair ? `left ${label}` : label;
  return [
    [
      `${what}AxleHeight`,
      height(`${shown}, axle end`, {
        label: `${label}, axle end`,
        question: `How high is the bolt at the axle end of the ${label}?`,
        hint: 'Center of the bolt, from the floor straight up.',
        such: what === 'lower' ? '15 1/4' : '25',
        sided: isPair,
      }),
    ],
    [
      `${what}FrameHeight`,
      height(`${shown}, frame end`, {
        label: `${label}, frame end`,
        question: `How high is the bolt at the frame end of the ${label}?`,
        hint: 'Center of the bolt, from the floor straight up.',
        such: what === 'lower' ? '21 1/2' : '28',
        sided: isPair,
      }),
    ],
    [
      `${what}Length`,
      {
        label: `${label}, bolt to bolt`,
        question: `How long is the ${label}, bolt center to bolt center?`,
        hint: 'Along the link in a straight line, even if the link is bent.',
        view: 'side',
        from: `${shown}, axle end`,
        to: `${shown}, frame end`,
        least: 14,
        most: 80,
        such: '36 7/8',
        sided: isPair,
      },
    ],
  ];
};

const lower = pairOfLink('lower', true);
const upper = (isPair: boolean): [string, Draft][] => pairOfLink('upper', isPair);

const arm: [string, Draft][] = [
  [
    'lowerAxleHeight',
    height('left arm, axle end', {
      label: 'radius arm, axle end',
      question: 'How high are the two axle bolts of the radius arm, in the middle between them?',
      hint: 'Tape both bolts from the floor and take the mean.',
      such: '14 3/4',
      sided: true,
    }),
  ],
  [
    'lowerFrameHeight',
    height('left arm, frame end', {
      label: 'radius arm, frame end',
      question: 'How high is the bolt at the frame end of the radius arm?',
      hint: 'Center of the bolt, from the floor straight up.',
      such: '22 1/2',
      sided: true,
    }),
  ],
  [
    'lowerLength',
    {
      label: 'radius arm, from the middle of its axle bolts to the frame bolt',
      question:
        'How long is the radius arm, from the middle between its axle bolts to its frame bolt?',
      hint: 'In a straight line between bolt centers.',
      view: 'side',
      from: 'left arm, axle end',
      to: 'left arm, frame end',
      least: 14,
      most: 80,
      such: '38 1/2',
      sided: true,
    },
  ],
];

const bar: [string, Draft][] = [
  [
    'barFrameHeight',
    height('track bar, frame end', {
      label: 'track bar, frame end',
      question: 'How high is the frame end of the track bar?',
      hint: 'Center of the bolt.',
      view: 'front',
      such: '27 3/4',
    }),
  ],
  [
    'barAxleHeight',
    height('track bar, axle end', {
      label: 'track bar, axle end',
      question: 'How high is the axle end of the track bar?',
      hint: 'Center of the bolt.',
      view: 'front',
      such: '25',
    }),
  ],
];

const ends: [string, Draft][] = [
  [
    'bumpGap',
    {
      label: 'bump stop to what it strikes',
      question: 'How much air is there between the bump stop and what it strikes?',
      hint: 'At ride height as it stands today: this is most of the up-travel.',
      view: 'front',
      from: 'left bump stop',
      to: 'left strike plate',
      least: 0.25,
      most: 12,
      such: '3 1/4',
    },
  ],
  [
    'pinionAngle',
    {
      label: 'pinion angle',
      question: 'How many degrees does the pinion point up, out of its flange?',
      hint: 'Angle finder on the flange, less 90°, or along a machined face; nose up is +, nose down −.',
      tool: 'angle finder',
      view: 'side',
      from: 'differential',
      to: 'pinion',
      dimension: 'angle',
      least: -15 * degrees,
      most: 25 * degrees,
      such: '7 deg',
    },
  ],
];

/** The usual cautions, as dialog and print show them. */
export const CAUTIONS: readonly (readonly [title: string, text: string])[] = [
  [
    'Geometry only.',
    'Everything here is worked out from numbers that somebody entered. It approves no part, no weld and no vehicle.',
  ],
  [
    'Steering and suspension changes can kill.',
    'A gap on this page is never a promise that nothing touches: parts bend, bushings give, tapes err.',
  ],
  [
    'Check the finished vehicle on stands',
    'through its full travel, with the springs out, hoses connected, and full lock both ways.',
  ],
  ['Springs, air bumps, straps and jacks hold energy.', 'Let it out before anything is loosened.'],
  [
    'Have structural parts and welds judged by qualified people.',
    'No welding on knuckles or castings, or near tank, brake and fuel lines.',
  ],
  [
    'Set the steering stops',
    'so that neither the steering box nor the ram is the stop. Use the makers’ own limits for joints, shafts and hoses.',
  ],
  ['Local law on vehicle modification decides', 'what may be driven on a road.'],
];

import { expect, test } from 'vitest';
import type { BuildFile } from '../../geometry/build/schema/file.ts';
import type { Hanging } from '../../geometry/build/takeOut.ts';
import { hangingWords } from '../../src/app/edit/hangingWords.ts';

const file = {
  wanted: {
    gaps: [{ pair: ['drag link', 'track bar'] }],
    muted: [{ pair: ['exhaust', 'driveshaft'] }],
  },
} as unknown as BuildFile;

test.each<[Hanging['what'], string, string]>([
  ['part', 'axles["front"].lines["brake hose"]', 'Brake hose'],
  [
    'joint',
    'axles["front"].links["lower link"].chassis.joint',
    'Lower link keeps its frame end, with a plain rod end',
  ],
  [
    'joint',
    'axles["front"].links["radius arm"].axle[1].joint',
    'Radius arm keeps its axle end, with a plain rod end',
  ],
  [
    'steering',
    'axles["front"].steering',
    'All of the steering with its knuckles: the axle then does not steer',
  ],
  ['wish', 'wanted.gaps[0]', 'The wanted gap of drag link and track bar'],
  ['wish', 'wanted.muted[0]', 'That exhaust and driveshaft are left out'],
  ['wish', 'wanted.bands[2]', 'A band that is wanted of it'],
  ['change', 'variants["short arms"].changes[3]', 'What the variant short arms changes of it'],
  ['option', 'alternatives["track bar"]', 'The alternatives for the track bar'],
  [
    'option',
    'alternatives["track bar"].options["bent bar"]',
    'bent bar, an alternative for the track bar',
  ],
])('%s at %s is told', (what, path, words) => {
  expect(hangingWords({ what, path }, file)).toBe(words);
});

/** The examples that play a vehicle to be taped. */
import type { Vehicle } from './taping.ts';

export const vehicles: Vehicle[] = [
  {
    example: 'triangulated-rear',
    choice: { name: 'rear', links: 'triangulated', straps: 'right' },
    called: { 'bump stop': 'air bump', 'limit strap': 'passenger strap', bed: 'mineral tub rack' },
    near: [
      'rail',
      'fender',
      'wheel well',
      'tailpipe',
      'fuel tank',
      'coil bucket',
      'bed',
      'link cross-member',
    ],
  },
  {
    example: 'four-link-rear',
    choice: { name: 'rear', links: 'fourLinks', straps: 'both' },
    called: { bed: 'flatbed' },
    near: ['rail', 'fender', 'tailpipe', 'fuel tank', 'coil bucket', 'bed', 'link cross-member'],
  },
  {
    example: 'long-arm-front',
    choice: { name: 'front', links: 'threeLinks', steering: 'dragLinkToKnuckle', assistRam: true },
    called: { 'bar end': 'track bar rod end' },
    near: [
      'rail',
      'fender',
      'inner fender',
      'gear housing',
      'oil pan',
      'bumper',
      'coil bucket',
      'exhaust',
    ],
  },
];

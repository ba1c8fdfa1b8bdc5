/** Names are unique in a build, since parts, ends and bodies are addressed by them. */
import type { Context } from './context.ts';
import type { Sided } from './sides.ts';

/** Names of what every build has by itself; on a vehicle of two axles also with `front` or `rear` before them. */
const builtIn = [
  'chassis',
  'axle',
  'axle housing',
  'axle shaft',
  'axle tube',
  'differential',
  'differential cover',
  'driveshaft',
  'drag link',
  'ground',
  'kingpin',
  'knuckle',
  'pinion',
  'pitman arm',
  'ram rod',
  'steering box',
  'sway bar',
  'tie rod',
  'tire',
  'transfer case',
  'wheel',
];

const reserved = new Set([
  'build',
  'centerline',
  ...builtIn.flatMap(name =>
    [
      '',
      'front ',
      'rear ',
      'left ',
      'right ',
      'front left ',
      'front right ',
      'rear left ',
      'rear right ',
    ].map(side => side + name),
  ),
]);

/** Tells names that stand twice, and those that the tool itself uses. */
export function checkNames(parts: readonly Sided<{ name: string }>[], context: Context): void {
  const first = new Map<string, string>();
  for (const { name, part, path } of parts) {
    const at = `${path}.name`;
    const taken = first.get(name);
    if (reserved.has(name)) {
      context.misnamed(
        at,
        part.name,
        `${name} is what the tool itself calls a part or place`,
        'a name of its own',
      );
    } else if (taken !== undefined) {
      context.misnamed(at, part.name, `${taken} is called ${name} too`, 'a name of its own');
    } else {
      first.set(name, path);
    }
  }
}

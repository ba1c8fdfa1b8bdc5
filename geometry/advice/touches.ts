/** Which parts of an axle a number of the build belongs to: margins that look at none of them need not be asked again. */
import type { Build } from '../build/build.ts';
import type { Leaf } from '../build/entrySlopes.ts';

/**
 * What these leaves belong to: names and kinds of parts, `all` where they locate the axle or its steering, null
 * where they belong to another axle.
 */
export function touches(
  build: Build,
  index: number,
  leaves: readonly Leaf[],
): ReadonlySet<string> | 'all' | null {
  const owners = new Set<string>();
  for (const { at } of leaves) {
    const [top, i, list, k, end, field] = at;
    if (top === 'solids') owners.add(build.solids[Number(i)]?.name ?? '');
    else if (top === 'weights' || top === 'wheelbase') owners.add(String(top));
    else if (i === index) {
      const axle = build.axles[index] as Build['axles'][number];
      switch (list) {
        case 'links':
        case 'radiusArms': {
          const isPlace =
            field === 'at' ||
            field === 'rates' ||
            Number.isInteger(field) ||
            end === 'length' ||
            end === 'rate';
          if (isPlace) return 'all';
          owners.add(axle[list][Number(k)]?.name ?? '');
          break;
        }
        case 'shocks':
        case 'coils':
        case 'straps':
        case 'bumpStops':
        case 'lines':
          owners.add(axle[list][Number(k)]?.name ?? '');
          break;
        case 'tire':
          if (k === 'loadedRadius') return 'all';
          owners.add('tire').add('wheel');
          break;
        case 'housing':
          owners
            .add('housing')
            .add('differential')
            .add(k === 'differential' ? 'differential' : '');
          break;
        case 'driveline':
          owners.add('driveshaft').add('driveshaft.pinion').add('driveshaft.transfer case');
          break;
        case 'steering': {
          const tells = at.join('.');
          if (!/tube|through|limit|stud|diameter|stroke|closed|sweep|bore|ratio/.test(tells))
            return 'all';
          const rods = [
            axle.steering?.dragLink,
            ...(axle.steering?.tieRods ?? []),
            ...(axle.steering?.rams ?? []),
          ];
          for (const rod of rods) if (rod) owners.add(rod.name);
          owners.add('pitmanArm').add('steering box');
          break;
        }
        case 'knuckles':
          if (at.includes('kingpin') || at.includes('toe') || at.includes('camber')) return 'all';
          owners.add('knuckle').add('left knuckle').add('right knuckle');
          break;
        default:
          return 'all';
      }
    }
  }
  owners.delete('');
  return owners.size > 0 ? owners : null;
}

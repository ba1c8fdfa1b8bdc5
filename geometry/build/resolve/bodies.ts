/** The bodies that solids and lines may ride on, by name. */
import type { AxleName, Side } from '../build.ts';
import { nearest } from '../nearest.ts';
import type { Context } from './context.ts';
import type { Carrier } from './frames.ts';
import { nameOnSide } from './sides.ts';

interface Asked {
  /** The axle whose body is meant, where that is said. */
  axle: AxleName | null;
  image: Side | null;
  path: string;
}

export interface Body {
  name: string;
  /** Null for the chassis. */
  axle: AxleName | null;
}

const onAxle = new Set([
  'axle',
  'left knuckle',
  'right knuckle',
  'tie rod',
  'left tie rod',
  'right tie rod',
]);

export class Bodies {
  private readonly context: Context;
  private readonly axlesByBody = new Map<string, AxleName[]>();

  constructor(context: Context) {
    this.context = context;
  }

  add(name: string, axle: AxleName): void {
    this.axlesByBody.set(name, [...(this.axlesByBody.get(name) ?? []), axle]);
  }

  /** How frames take a point on this body. */
  carrierOf(name: string): Carrier['body'] {
    if (name === 'chassis' || name === 'pitman arm' || name.endsWith('sway bar arm'))
      return 'chassis';
    return onAxle.has(name) ? 'axle' : 'none';
  }

  /** The body of that name for this image of a mirrored part; a problem is told where there is none. */
  find(written: string, { axle, image, path }: Asked): Body {
    if (written === 'chassis') return { name: 'chassis', axle: null };
    const mirrored = nameOnSide(written, image);
    const name =
      this.axlesByBody.has(mirrored) || image === null ? mirrored : `${image} ${written}`;
    const axles = this.axlesByBody.get(name);
    if (axles === undefined) {
      this.context.misnamed(path, written, 'there is no such body', this.suggestion(written));
      return { name: 'chassis', axle: null };
    }
    const [first, second] = axles;
    if (axle !== null && !axles.includes(axle)) {
      this.context.misnamed(
        path,
        written,
        `the ${axle} axle has no such body`,
        `a body of the ${axle} axle`,
      );
    }
    if (axle === null && second !== undefined) {
      this.context.misnamed(
        path,
        written,
        'both axles have such a body',
        '"axle": "front" or "rear" beside it',
      );
    }
    return { name, axle: axle ?? first ?? null };
  }

  private suggestion(written: string): string {
    const known = ['chassis', ...this.axlesByBody.keys()];
    const end = known.find(name => name === `left ${written}` || name.startsWith(`${written}.`));
    const near = end ?? nearest(written, known);
    return near === null
      ? '"chassis", "axle", "left knuckle" … or the name of a part'
      : `"${near}"`;
  }
}

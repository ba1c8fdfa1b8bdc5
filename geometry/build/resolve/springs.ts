/** Shocks, coils, bump stops, straps and lines: from the file to the Build. */
import type { Axle, BumpStop, Coil, Line, Shock, Strap } from '../build.ts';
import type { EvaluatedFile } from '../schema/file.ts';
import type { Bodies } from './bodies.ts';
import { type Context, field, settingOf } from './context.ts';
import type { Setting } from './places.ts';
import { type Sided, sided, sideOf } from './sides.ts';

type AxleFile = EvaluatedFile['axles'][number];
type Item<K extends 'shocks' | 'coils' | 'bumpStops' | 'straps' | 'lines'> = NonNullable<
  AxleFile[K]
>[number];

/** All springs, stops and lines of an axle: first named, then made. */
export class Springs {
  private readonly axle: AxleFile;
  private readonly context: Context;
  readonly shocks: Sided<Item<'shocks'>>[];
  private readonly coils: Sided<Item<'coils'>>[];
  private readonly bumpStops: Sided<Item<'bumpStops'>>[];
  private readonly straps: Sided<Item<'straps'>>[];
  private readonly lines: Sided<Item<'lines'>>[];

  constructor(axle: AxleFile, path: string, context: Context) {
    this.axle = axle;
    this.context = context;
    this.shocks = sided(axle.shocks, `${path}.shocks`);
    this.coils = sided(axle.coils, `${path}.coils`);
    this.bumpStops = sided(axle.bumpStops, `${path}.bumpStops`);
    this.straps = sided(axle.straps, `${path}.straps`);
    this.lines = sided(axle.lines, `${path}.lines`);
  }

  /** Names of all parts, with where they stand. */
  parts(): Sided<{ name: string }>[] {
    return [...this.shocks, ...this.coils, ...this.bumpStops, ...this.straps, ...this.lines];
  }

  /** Names the points: `NAME.axle`, `NAME.chassis`, `NAME.pad`, `NAME.strike`, `NAME.from`, `NAME.to`. */
  add(bodies: Bodies): void {
    const { places } = this.context;
    for (const item of [...this.shocks, ...this.coils, ...this.straps]) {
      for (const end of ['axle', 'chassis'] as const) {
        const setting = { ...this.setting(item, end), body: end };
        places.add(`${item.name}.${end}`, item.part[end], setting);
      }
    }
    for (const item of this.bumpStops) {
      for (const end of ['pad', 'strike'] as const) {
        const { on, at } = item.part[end];
        places.add(`${item.name}.${end}`, at, { ...this.setting(item, `${end}.at`), body: on });
      }
    }
    for (const item of this.lines) {
      for (const end of ['from', 'to'] as const) {
        const { on, at } = item.part[end];
        const body = bodies.carrierOf(on);
        places.add(`${item.name}.${end}`, at, { ...this.setting(item, `${end}.at`), body });
      }
    }
  }

  make(bodies: Bodies): Pick<Axle, 'shocks' | 'coils' | 'bumpStops' | 'straps' | 'lines'> {
    return {
      shocks: this.shocks.map(item => this.shock(item)),
      coils: this.coils.map(item => this.coil(item)),
      bumpStops: this.bumpStops.map(item => this.bumpStop(item)),
      straps: this.straps.map(item => this.strap(item)),
      lines: this.lines.map(item => this.line(item, bodies)),
    };
  }

  private setting({ image, path }: Sided<unknown>, key: string): Setting {
    return settingOf('none', this.axle.name, image, `${path}.${key}`);
  }

  private ends(
    item: Sided<unknown>,
    of: string,
  ): Pick<Strap, 'name' | 'side' | 'axle' | 'chassis'> {
    const { name, image, path } = item;
    const axle = this.context.places.at(`${name}.axle`);
    const chassis = this.context.places.at(`${name}.chassis`);
    this.context.apart(axle, chassis, path, `the ends of this ${of}`);
    return { name, side: image ?? sideOf(name, axle[1]), axle, chassis };
  }

  private shock(item: Sided<Item<'shocks'>>): Shock {
    const { part, path } = item;
    if (part.longest <= part.shortest) {
      const message = `it is not more than "shortest" (${part.shortest} in)`;
      this.context.misshapen(
        `${path}.longest`,
        `${part.longest} in`,
        message,
        'the longer of both',
      );
    }
    return {
      ...this.ends(item, 'shock'),
      shortest: part.shortest,
      longest: part.longest,
      bodyEnd: part.bodyEnd ?? 'chassis',
      body: { od: part.body?.od ?? null, length: part.body?.length ?? null },
      shaft: { od: part.shaft?.od ?? null },
      reservoir: this.reservoir(item),
    };
  }

  private reservoir(item: Sided<Item<'shocks'>>): Shock['reservoir'] {
    const { reservoir, bodyEnd } = item.part;
    if (!reservoir) return null;
    const body = reservoir.on === 'chassis' ? 'chassis' : (bodyEnd ?? 'chassis');
    const setting = { ...this.setting(item, 'reservoir.capsule'), body };
    const { from, to, radius } = reservoir.capsule;
    const ends = {
      from: this.context.places.point(from, field(setting, 'from')),
      to: this.context.places.point(to, field(setting, 'to')),
    };
    this.context.apart(ends.from, ends.to, setting.path, 'the ends of this reservoir');
    return { on: reservoir.on, ...ends, radius };
  }

  private coil(item: Sided<Item<'coils'>>): Coil {
    const { part, path } = item;
    if (part.free && part.solid && part.solid >= part.free) {
      const message = `it is not less than "free" (${part.free} in)`;
      this.context.misshapen(`${path}.solid`, `${part.solid} in`, message, 'the shorter of both');
    }
    if (part.wire && part.diameter && part.wire >= part.diameter) {
      const message = `it is not less than "diameter" (${part.diameter} in)`;
      this.context.misshapen(`${path}.wire`, `${part.wire} in`, message, 'the smaller of both');
    }
    return {
      ...this.ends(item, 'coil'),
      free: part.free ?? null,
      rate: part.rate ?? null,
      wire: part.wire ?? null,
      turns: part.turns ?? null,
      diameter: part.diameter ?? null,
      solid: part.solid ?? null,
    };
  }

  private bumpStop(item: Sided<Item<'bumpStops'>>): BumpStop {
    const { name, image, part, path } = item;
    const { pad, strike } = part;
    if (pad.on === strike.on) {
      const other = pad.on === 'axle' ? 'chassis' : 'axle';
      this.context.misnamed(`${path}.strike.on`, strike.on, 'the pad is on it too', `"${other}"`);
    }
    if (part.solidHeight > part.contactHeight) {
      const message = `it is more than "contactHeight" (${part.contactHeight} in)`;
      this.context.misshapen(
        `${path}.solidHeight`,
        `${part.solidHeight} in`,
        message,
        'at most that',
      );
    }
    const curve = (part.curve ?? []).map(([height, force]): [number, number] => [height, force]);
    curve.forEach(([height], i) => {
      const before = curve[i - 1];
      if (before !== undefined && height >= before[0]) {
        const message = `it is not below the height before it (${before[0]} in)`;
        this.context.misshapen(
          `${path}.curve[${i}]`,
          `${height} in`,
          message,
          'heights that fall from contact down',
        );
      }
    });
    const at = this.context.places.at(`${name}.pad`);
    const normal = { ...this.setting(item, 'strike.normal'), body: strike.on };
    return {
      name,
      side: image ?? sideOf(name, at[1]),
      kind: part.kind,
      pad: { on: pad.on, at },
      strike: {
        on: strike.on,
        at: this.context.places.at(`${name}.strike`),
        normal: strike.normal
          ? this.context.direction(strike.normal, normal)
          : [0, 0, pad.on === 'axle' ? -1 : 1],
        radius: strike.radius ?? null,
      },
      contactHeight: part.contactHeight,
      solidHeight: part.solidHeight,
      curve,
    };
  }

  private strap(item: Sided<Item<'straps'>>): Strap {
    return { ...this.ends(item, 'strap'), length: item.part.length };
  }

  private line(item: Sided<Item<'lines'>>, bodies: Bodies): Line {
    const { name, image, part, path } = item;
    const end = (key: 'from' | 'to') => ({
      on: bodies.find(part[key].on, { axle: this.axle.name, image, path: `${path}.${key}.on` })
        .name,
      at: this.context.places.at(`${name}.${key}`),
    });
    return {
      name,
      from: end('from'),
      to: end('to'),
      length: part.length,
      leastBendRadius: part.leastBendRadius ?? null,
      diameter: part.diameter ?? null,
    };
  }
}

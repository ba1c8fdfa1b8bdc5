/**
 * The borders between the rooms of the source tree: which room may import what, and why.
 *
 * Data goes one way, and each arrow is an import in the same direction:
 *
 *     build → mechanism → pose → measure → limit → cycle → gap → finding → compare, advice → views
 *
 * This table is the only statement of the borders. `borders.test.ts` reads the imports of every
 * file against it and writes the lint rules, `borders.biome.json`, from it.
 */
import { posix } from 'node:path';
import { parseSync } from 'vite';

export interface Room {
  /** Rooms next to it; whatever those may import, this room may import too. */
  readonly imports: readonly string[];
  /** Rooms that it may not import although a neighbor may. */
  readonly except?: readonly string[];
  /** npm packages, with everything below them. */
  readonly packages: readonly string[] | 'any';
  /** Packages for one file of the room alone. */
  readonly filePackages?: Readonly<Record<string, readonly string[]>>;
  /** Whether Node's own modules may be imported. */
  readonly node: boolean;
  /** What a person who breaks this border has to know. */
  readonly why: string;
}

const oneWay =
  'data goes one way: build → mechanism → pose → measure → limit → cycle → gap → finding → ' +
  'compare, advice → src';

const pure =
  'geometry/ is pure: it runs alike in Node, in a browser and in a worker, so it takes nothing ' +
  'from src/, no screen library and no module of Node';

function geometryRoom(imports: readonly string[], why = oneWay): Room {
  return { imports: ['geometry', ...imports], packages: [], node: false, why };
}

/** By folder. `geometry` and `src` are the files directly in there, `tests` all but the oracle. */
export const rooms: Readonly<Record<string, Room>> = {
  geometry: {
    imports: [],
    packages: [],
    node: false,
    why: 'what stands directly in geometry/ is common ground of all rooms and leans on none',
  },
  'geometry/build': {
    ...geometryRoom([]),
    packages: ['zod', 'mathjs'],
  },
  'geometry/mechanism': geometryRoom(['geometry/build']),
  'geometry/pose': geometryRoom(['geometry/mechanism']),
  'geometry/measure': geometryRoom(['geometry/pose']),
  'geometry/limit': geometryRoom(['geometry/measure']),
  'geometry/cycle': geometryRoom(['geometry/limit']),
  'geometry/solid': {
    ...geometryRoom([], 'solids know nothing of axles, so that shapes can be tested alone'),
    filePackages: { 'mesh.ts': ['three', 'three-mesh-bvh'] },
  },
  'geometry/gap': geometryRoom(['geometry/cycle', 'geometry/solid']),
  'geometry/finding': geometryRoom(['geometry/gap']),
  'geometry/compare': geometryRoom(['geometry/finding']),
  'geometry/advice': geometryRoom(['geometry/finding']),

  src: {
    imports: ['src/app'],
    packages: 'any',
    node: false,
    why: 'what stands directly in src/ starts the page and runs in a browser',
  },
  'src/app': {
    imports: ['src/viewer', 'src/charts', 'src/worker'],
    packages: 'any',
    node: false,
    why: 'the screens run in a browser and know nothing of the command line',
  },
  'src/viewer': {
    imports: ['geometry/compare', 'geometry/advice'],
    packages: 'any',
    node: false,
    why: 'the 3D view is a function of results: it knows neither the screens nor the charts',
  },
  'src/charts': {
    imports: ['geometry/compare', 'geometry/advice'],
    packages: 'any',
    node: false,
    why: 'a chart is a function of results: it knows neither the screens nor the 3D view',
  },
  'src/worker': {
    imports: ['geometry/compare', 'geometry/advice'],
    except: ['geometry/build'],
    packages: 'any',
    node: false,
    why: 'the worker gets assembled arrays, so that no zod and no mathjs get into its bundle',
  },
  'src/cli': {
    imports: ['geometry/compare', 'geometry/advice'],
    packages: [],
    node: true,
    why: 'the command line prints results of geometry/ and knows nothing of the page',
  },

  tests: {
    imports: ['geometry/compare', 'geometry/advice', 'src', 'src/cli', 'tests/oracle'],
    packages: 'any',
    node: true,
    why: 'tests may import everything',
  },
  'tests/oracle': {
    imports: ['geometry/build'],
    except: ['geometry'],
    packages: 'any',
    node: true,
    why: 'an oracle that shares code with what it checks is no witness: geometry/build and nothing else of ours',
  },
};

/** The room that a file is in, by its path from the top; it need not be one of the table. */
export function roomOf(file: string): string {
  const [top = '', next = '', ...deeper] = file.split('/');
  if (top === 'tests') return next === 'oracle' && deeper.length > 0 ? 'tests/oracle' : 'tests';
  return deeper.length > 0 ? `${top}/${next}` : top;
}

/** Every room that `room` may import, itself among them. */
export function reach(room: string): ReadonlySet<string> {
  const reached = new Set([room]);
  for (const each of reached) {
    for (const next of rooms[each]?.imports ?? []) reached.add(next);
  }
  for (const each of rooms[room]?.except ?? []) reached.delete(each);
  return reached;
}

/** A computed specifier cannot be checked: it counts as a package of this name. */
const computed = '(computed)';

/**
 * Everything that a TypeScript source imports: import and export declarations, dynamic imports
 * and types written `import('…')`. Types count too: a border with a hole for types is none.
 */
export function importsOf(file: string, source: string): string[] {
  const { program, errors } = parseSync(file, source);
  if (errors.length > 0) throw new Error(`${file}: ${errors[0]?.message}`);
  const found: string[] = [];
  const visit = (node: unknown): void => {
    if (Array.isArray(node)) {
      for (const each of node) visit(each);
    } else if (typeof node === 'object' && node !== null) {
      const { type, source: from } = node as {
        type?: unknown;
        source?: { value?: unknown } | null;
      };
      if (typeof type === 'string' && /Import|^Export/.test(type) && from) {
        found.push(typeof from.value === 'string' ? from.value : computed);
      }
      for (const each of Object.values(node)) visit(each);
    }
  };
  visit(program);
  return found;
}

function within(specifier: string, packages: readonly string[]): boolean {
  return packages.some(name => specifier === name || specifier.startsWith(`${name}/`));
}

/**
 * One line for each import that crosses a border, naming the file, the import and the reason;
 * empty where all is well. `file` is a path from the top, with forward slashes.
 */
export function crossings(file: string, specifiers: readonly string[]): string[] {
  const name = roomOf(file);
  const room = rooms[name];
  if (!room) return [`${file}: ${name}/ is no room of the table in tests/borders.ts: add it there`];
  const allowed = reach(name);
  const inGeometry = file.startsWith('geometry/');

  const reason = (specifier: string): string | null => {
    if (specifier.startsWith('node:')) {
      return room.node ? null : inGeometry ? pure : room.why;
    }
    if (!specifier.startsWith('.')) {
      const own = room.filePackages?.[posix.basename(file)] ?? [];
      if (room.packages === 'any' || within(specifier, [...room.packages, ...own])) return null;
      return packageReason(name);
    }
    const target = posix.join(posix.dirname(file), specifier.replace(/\?.*$/, ''));
    if (!/^(geometry|src|tests)\//.test(target)) return inGeometry ? pure : null;
    if (allowed.has(roomOf(target))) return null;
    return inGeometry && !target.startsWith('geometry/') ? pure : room.why;
  };

  return specifiers.flatMap(specifier => {
    const why = reason(specifier);
    return why === null ? [] : [`${file} may not import '${specifier}': ${why}`];
  });
}

function packageReason(name: string): string {
  const room = rooms[name];
  if (!room || room.packages === 'any') return '';
  const parts =
    room.packages.length > 0 ? [`of packages, ${room.packages.join(' and ')} alone`] : [];
  for (const [file, packages] of Object.entries(room.filePackages ?? {})) {
    parts.push(`only ${name}/${file} may import ${packages.join(' and ')}`);
  }
  const limits = parts.length > 0 ? parts.join('; ') : `${name}/ takes no package`;
  return name.startsWith('geometry') ? `${limits}; ${pure}` : `${limits}; ${room.why}`;
}

interface Pattern {
  group: string[];
  message: string;
}

/**
 * The same borders as lint rules, so that an editor shows them while one types. Lint sees the
 * specifier, not the file behind it, so it goes by folder names; the test is the exact check.
 */
export function lintOverrides(): unknown[] {
  const overrides: unknown[] = [];
  const add = (includes: string, patterns: Pattern[]): void => {
    const rule = { level: 'error', options: { patterns } };
    overrides.push({
      includes: [includes],
      linter: { rules: { style: { noRestrictedImports: rule } } },
    });
  };

  for (const [name, room] of Object.entries(rooms)) {
    if (name === 'tests') continue;
    const isFolder = name.includes('/');
    const includes = isFolder ? `${name}/**` : `${name}/*`;
    const denied = foldersDenied(name);
    const rest: Pattern[] = denied.length > 0 ? [{ group: denied, message: room.why }] : [];
    if (name.startsWith('geometry')) {
      rest.push({ group: ['**/src/**', '**/tests/**'], message: pure });
    }
    add(includes, [...packagePatterns(name, []), ...rest]);
    for (const [file, packages] of Object.entries(room.filePackages ?? {})) {
      add(`${name}/${file}`, [...packagePatterns(name, packages), ...rest]);
    }
  }
  return overrides;
}

/** Folder names that lint refuses in a room, beyond src/ and tests/ for geometry. */
function foldersDenied(name: string): string[] {
  const allowed = reach(name);
  const others = Object.keys(rooms).filter(
    each => each.includes('/') && !each.startsWith('tests') && !allowed.has(each),
  );
  if (name.startsWith('geometry')) {
    return others.filter(each => each.startsWith('geometry')).map(folderPattern);
  }
  if (name.startsWith('tests')) {
    const geometry = others.filter(each => each.startsWith('geometry')).map(folderPattern);
    return [...geometry, '**/geometry/*', '**/src/**'];
  }
  return [...others.map(folderPattern), '**/tests/**'];
}

function folderPattern(room: string): string {
  return `**/${posix.basename(room)}/**`;
}

function packagePatterns(name: string, more: readonly string[]): Pattern[] {
  const room = rooms[name];
  if (!room) return [];
  if (room.packages === 'any') {
    return room.node ? [] : [{ group: ['node:*', 'node:*/**'], message: room.why }];
  }
  const open = [...room.packages, ...more].flatMap(each => [`!${each}`, `!${each}/**`]);
  if (room.node) open.push('!node:*', '!node:*/**');
  return [{ group: ['**', '!./**', '!../**', ...open], message: packageReason(name) }];
}

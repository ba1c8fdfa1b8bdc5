/** The browser of the tests: Debian's Chromium, or another that is where it usually is. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const PLACES = [
  process.env.CHROMIUM ?? '',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

/** Where it is, or null. */
export const findChromium = (): string | null =>
  PLACES.find(place => place !== '' && existsSync(place)) ?? null;

/**
 * Where it is; on Debian and its kin it is installed where it is missing.
 *
 * @throws with what to do, where it cannot be had
 */
export function bringChromium(): string {
  const found = findChromium();
  if (found) return found;
  const isRoot = process.getuid?.() === 0;
  const apt = (...words: string[]): boolean => {
    const command = isRoot ? ['apt-get', ...words] : ['sudo', '-n', 'apt-get', ...words];
    const [program = '', ...rest] = command;
    console.info(command.join(' '));
    return spawnSync(program, rest, { stdio: 'inherit' }).status === 0;
  };
  if (existsSync('/usr/bin/apt-get')) {
    apt('update');
    apt('install', '-y', '--no-install-recommends', 'chromium');
  }
  const brought = findChromium();
  if (brought) return brought;
  throw new Error(
    'The browser tests need Chromium: install it (Debian: apt-get install chromium), or set CHROMIUM to where it is.',
  );
}

/** Switches for a machine without a screen or a graphics card, and without calls to other hosts. */
export const SWITCHES = [
  '--no-sandbox',
  '--enable-unsafe-swiftshader',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

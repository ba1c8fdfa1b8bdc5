/** The command line as a function: words in, exit code out. */
import { shown } from '../../geometry/build/problem.ts';
import { type Command, parseArguments } from './arguments.ts';
import { helpText } from './help.ts';
import type { Io } from './io.ts';
import { type Outcome, refused } from './outcome.ts';

/**
 * Does what the words behind `axlewalk` ask for.
 *
 * @returns 0 done, 1 done with something that must be fixed or can't be reached, 2 refused; see the help
 */
export async function run(words: readonly string[], io: Io): Promise<number> {
  let outcome: Outcome;
  try {
    const parsed = parseArguments(words);
    outcome = 'problems' in parsed ? refused(parsed.problems) : await carryOut(parsed.command, io);
  } catch (error) {
    outcome = refused([
      `internal error, please report it with the file and the command: ${shown(String(error))}`,
    ]);
  }
  if (outcome.err.length > 0) io.err(`${outcome.err.join('\n')}\n`);
  if (outcome.out !== '') io.out(outcome.out);
  return outcome.code;
}

/** Each verb is read in when it is asked for, so that none waits for what it does not need. */
async function carryOut(command: Command, io: Io): Promise<Outcome> {
  switch (command.verb) {
    case 'help':
      return { code: 0, out: helpText(command.of), err: [] };
    case 'check':
      return (await import('./check.ts')).check(command, io);
    case 'pose':
      return (await import('./pose.ts')).pose(command, io);
    case 'walk':
      return (await import('./walk.ts')).walk(command, io);
    case 'gaps':
      return command.options.alternative === null
        ? (await import('./gaps.ts')).gaps(command, io)
        : (await import('./candidates.ts')).candidates(command, io);
    case 'compare':
      return (await import('./compare.ts')).compare(command, io);
    case 'new':
      return (await import('./new.ts')).newBuild(command, io);
  }
}

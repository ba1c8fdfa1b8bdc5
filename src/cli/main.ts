/** The command line's start: the process around `run`. */
import { Input } from './input.ts';
import { screenOf } from './io.ts';
import { run } from './run.ts';

/** A reader that has seen enough (`| head`) is no error; anything else is told once. */
function ended(error: NodeJS.ErrnoException): void {
  if (error.code === 'EPIPE') return;
  process.exitCode = 2;
  process.stderr.write(`the result can't be written: ${error.message}\n`);
}

process.stdout.on('error', ended);
process.stderr.on('error', () => {});

const input = new Input(process.stdin, process.stderr);

process.exitCode = await run(process.argv.slice(2), {
  out: text => void process.stdout.write(text),
  err: text => void process.stderr.write(text),
  folder: process.env.INIT_CWD ?? process.cwd(),
  screen: screenOf(process.stdout, process.env),
  isErrTerminal: process.stderr.isTTY === true,
  line: prompt => input.line(prompt),
  now: () => performance.now(),
});
input.close();

/**
 * Times candidates against each other in one process. Times alone say little on a shared machine, so the
 * candidates take turns, round by round, and what counts is the ratio of their medians.
 *
 * @example
 *   const timings = timeInRounds([yardstick, ours], { rounds: 21 });
 *   console.log(tableOf(timings, 'yardstick'));
 *   ratioOfMedians(timings, 'yardstick', 'ours'); // 2.8: ours is 2.8 times as fast
 */

export type Candidate = {
  name: string;
  /** How many items (poses, pairs …) one call of `run` works off. */
  items: number;
  /** Does the work and returns a number that hangs on all of it, so that no engine can leave it out. */
  run: () => number;
  /** What came of the work (counts of verdicts, steps), asked after the last round and shown beside the times. */
  outcome?: () => string;
};

/** Microseconds an item, over the rounds. */
export type Timing = {
  name: string;
  least_us: number;
  median_us: number;
  greatest_us: number;
  outcome: string;
};

export type TimingOptions = {
  /** Samples of each candidate; 15 unless given. */
  rounds?: number;
  /** Each candidate runs this long before anything is timed, so that it is compiled; 300 unless given. */
  warmUp_ms?: number;
  /** A sample repeats its candidate for about this long, far above the clock's own grain; 10 unless given. */
  sample_ms?: number;
  /** The clock, in milliseconds. */
  now?: () => number;
};

/** Whatever the candidates return ends here. */
const sink = new Float64Array(1);

function keep(value: number): void {
  sink[0] = (sink[0] as number) + value;
}

/** Runs the candidates in rounds, each round beginning with another one. */
export function timeInRounds(candidates: Candidate[], options: TimingOptions = {}): Timing[] {
  const { rounds = 15, warmUp_ms = 300, sample_ms = 10, now = () => performance.now() } = options;
  if (!(Number.isInteger(rounds) && rounds >= 1)) {
    throw new RangeError(`rounds is ${rounds}; a whole number from 1 up is needed`);
  }
  for (const { name, items } of candidates) {
    if (!(items > 0)) throw new RangeError(`items of '${name}' is ${items}; it must be above 0`);
  }
  const turns = candidates.map(candidate => ({
    ...candidate,
    repeats: warmUp(candidate.run, warmUp_ms, sample_ms, now),
    samples_us: [] as number[],
  }));
  for (let round = 0; round < rounds; round++) {
    const first = round % turns.length;
    for (const { run, items, repeats, samples_us } of [
      ...turns.slice(first),
      ...turns.slice(0, first),
    ]) {
      const started = now();
      for (let k = 0; k < repeats; k++) keep(run());
      samples_us.push(((now() - started) * 1000) / (repeats * items));
    }
  }
  return turns.map(({ name, samples_us, outcome }) => ({
    name,
    least_us: Math.min(...samples_us),
    median_us: medianOf(samples_us),
    greatest_us: Math.max(...samples_us),
    outcome: outcome?.() ?? '',
  }));
}

/** Runs until the engine has compiled it; returns how many runs make up a sample. */
function warmUp(
  run: () => number,
  warmUp_ms: number,
  sample_ms: number,
  now: () => number,
): number {
  const started = now();
  let ended = started;
  let run_ms = 0;
  do {
    const began = ended;
    keep(run());
    ended = now();
    run_ms = ended - began;
  } while (ended - started < warmUp_ms);
  // A run too short for the clock reads 0: then one sample is as many as make sense at 1 µs each.
  return Math.max(1, Math.round(sample_ms / Math.max(run_ms, 1e-3)));
}

/** How many times as fast as `reference` the candidate `name` is, by their medians. */
export function ratioOfMedians(timings: Timing[], reference: string, name: string): number {
  return timingOf(timings, reference).median_us / timingOf(timings, name).median_us;
}

/** The timings as lines of text; with a reference, a column says how many times as fast as it each one is. */
export function tableOf(timings: Timing[], reference?: string): string {
  const head = ['', 'least µs', 'median µs', 'most µs'];
  if (reference !== undefined) head.push(`× ${reference}`);
  const rows = timings.map(timing => {
    const numbers = [timing.least_us, timing.median_us, timing.greatest_us];
    if (reference !== undefined) numbers.push(ratioOfMedians(timings, reference, timing.name));
    return [timing.name, ...numbers.map(threeDigits), timing.outcome];
  });
  const lines = [head, ...rows];
  const widthOf = (column: number) => Math.max(...lines.map(line => line[column]?.length ?? 0));
  return lines
    .map(line => {
      const cells = line.map((cell, column) => {
        const isText = column === 0 || column >= head.length;
        return isText ? cell.padEnd(widthOf(column)) : cell.padStart(widthOf(column));
      });
      return cells.join('  ').trimEnd();
    })
    .join('\n');
}

function timingOf(timings: Timing[], name: string): Timing {
  const found = timings.find(timing => timing.name === name);
  if (found) return found;
  const names = timings.map(timing => `'${timing.name}'`).join(', ');
  throw new RangeError(`no candidate is named '${name}'; there are ${names}`);
}

function medianOf(values: number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const upper = sorted[sorted.length >> 1] as number;
  const lower = sorted[(sorted.length - 1) >> 1] as number;
  return (lower + upper) / 2;
}

/** Three significant digits below 100, whole numbers above. */
function threeDigits(value: number): string {
  return value < 100 ? value.toPrecision(3) : value.toFixed(0);
}

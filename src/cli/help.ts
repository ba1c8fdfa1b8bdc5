/** The help, made from the table of verbs, so that it cannot say other than what the parser does. */
import { formats, options, type Verb, verbNames, verbTable } from './verbs.ts';

/** How the command line is called in this project. */
const call = 'npm run -s axlewalk --';
const width = 96;

/** Help on one verb, or on all with null. Ends with a line end. */
export function helpText(verb: Verb | null): string {
  return `${(verb === null ? general() : ofVerb(verb)).join('\n')}\n`;
}

function general(): string[] {
  return [
    'Axlewalk walks a solid axle through every position that it can reach.',
    '',
    `  ${call} VERB FILE [options]`,
    '',
    ...columns(verbNames.map(verb => [usage(verb), verbTable[verb].text])),
    '',
    `  ${call} VERB --help   explains the options of one verb.`,
    '',
    'Examples:',
    ...examples(verbNames.flatMap(verb => verbTable[verb].examples.slice(0, 1))),
    '',
    ...entries,
    '',
    ...exits,
  ];
}

function ofVerb(verb: Verb): string[] {
  const spec = verbTable[verb];
  const rows: [string, string][] = [
    ...spec.options.map((name): [string, string] => [
      `--${name} ${options[name].values.join(' ')}`,
      options[name].text,
    ]),
    ...spec.formats.map((name): [string, string] => [`--${name}`, formats[name]]),
    ['--help', 'print this'],
  ];
  return [
    `${verb}: ${spec.text}`,
    '',
    `  ${call} ${usage(verb)} [options]`,
    '',
    ...columns(rows),
    '',
    ...wrap(spec.more, '', ''),
    '',
    'Examples:',
    ...examples(spec.examples),
    '',
    ...entries,
    '',
    ...exits,
  ];
}

function usage(verb: Verb): string {
  return [verb, ...verbTable[verb].files].join(' ');
}

const entries = [
  'FILE is a build, NAME.axlewalk.json, or FILE#VARIANT for one of its variants.',
  "Lengths and angles are written as on a tape: 23-5/8, '-2 1/4', '600 mm', '7 deg'. A bare number",
  'is inches or degrees. A value with a space in it needs quotes.',
];

const exits = [
  'Exit codes: 0 nothing found that must be fixed, which does not mean that the vehicle is fit to',
  'drive; 1 something must be fixed, or a pose passes a limit or cannot be reached; 2 the input',
  'was refused.',
];

function examples(lines: readonly (readonly [line: string, text: string])[]): string[] {
  return lines.flatMap(([line, text]) => [`  ${call} ${line}`, `      ${text}`]);
}

/** Two columns; a left side that is too wide for its column gets a line of its own. */
function columns(rows: readonly (readonly [left: string, right: string])[]): string[] {
  const widest = 24;
  const column = Math.max(...rows.map(([left]) => left.length).filter(n => n <= widest));
  const indent = ' '.repeat(column + 5);
  return rows.flatMap(([left, right]) =>
    left.length > column
      ? [`  ${left}`, ...wrap(right, indent, indent)]
      : wrap(right, `  ${left.padEnd(column)}   `, indent),
  );
}

function wrap(text: string, first: string, rest: string): string[] {
  const lines: string[] = [];
  let line = first;
  for (const word of text.split(' ')) {
    const isEmpty = line === first || line === rest;
    if (!isEmpty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = rest + word;
    } else {
      line += isEmpty ? word : ` ${word}`;
    }
  }
  return [...lines, line];
}

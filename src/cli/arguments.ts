/**
 * The command line, from words to a typed command. Nothing is read or printed here; lengths and
 * angles stay as typed, since reading tape entries is the build room's work.
 */
import { nearest } from '../../geometry/build/nearest.ts';
import {
  type Format,
  formatNames,
  type OptionName,
  type OptionValue,
  optionNames,
  options,
  type Verb,
  verbNames,
  type verbs,
  verbTable,
} from './verbs.ts';

/** A build file, and the variant after its `#`. */
export interface FileArgument {
  path: string;
  variant: string | null;
}

type FileFor<Names extends readonly string[]> = { [K in keyof Names]: FileArgument };

/** What was asked for with one verb; an option that was not given is null. */
export type CommandOf<V extends Verb> = {
  verb: V;
  files: FileFor<(typeof verbs)[V]['files']>;
  options: { [K in (typeof verbs)[V]['options'][number]]: OptionValue<K> | null };
  output: 'text' | (typeof verbs)[V]['formats'][number];
};

/** `--help`, of one verb or of all. */
export interface HelpCommand {
  verb: 'help';
  of: Verb | null;
}

export type Command = { [V in Verb]: CommandOf<V> }[Verb] | HelpCommand;

/** A command, or one line for each thing that is wrong: what stands there, what would be right. */
export type Parsed = { command: Command } | { problems: string[] };

const seeHelp = 'axlewalk --help lists all';

/**
 * Read the words behind `axlewalk`.
 *
 * An option's value is the next word, even if it starts with one hyphen (`--left -5`), or stands
 * behind an equals sign (`--left=-5`). Options and files may come in any order; the first word
 * that is neither option nor value is the verb.
 *
 * @example parseArguments(['pose', 'a.json', '--left', '-2 1/4']) // { command: { verb: 'pose', … } }
 * @example parseArguments(['chek', 'a.json']) // { problems: ["unknown verb 'chek': did you mean …"] }
 */
export function parseArguments(words: readonly string[]): Parsed {
  const sorted = sortWords(words);
  const { plain, given, problems } = sorted;

  const first = plain[0]?.word;
  const verb = verbNames.find(name => name === first) ?? null;
  if (sorted.help && (verb !== null || first === undefined)) {
    return { command: { verb: 'help', of: verb } };
  }
  if (verb === null) return { problems: [verbProblem(first), ...problems] };

  const spec = verbTable[verb];
  const files = readFiles(verb, plain.slice(1), problems);

  const values: Partial<Record<OptionName, unknown>> = {};
  for (const name of spec.options) values[name] = null;
  let output: 'text' | Format = 'text';

  for (const [name, typed] of given) {
    if (isFormat(name)) {
      if (!spec.formats.includes(name)) problems.push(notTaken(verb, name));
      else if (output === 'text') output = name;
      else problems.push(`--${output} and --${name} are both given: ${verb} prints one at a time`);
    } else if (!spec.options.includes(name)) {
      problems.push(notTaken(verb, name));
    } else {
      const read = options[name].read(typed);
      if ('value' in read) values[name] = read.value;
      else problems.push(`--${name}: ${typed.map(quoted).join(' ')} is not ${read.wanted}`);
    }
  }

  if (problems.length > 0) return { problems };
  // The table ties files, options and formats to the verb; the compiler cannot follow it that far.
  return { command: { verb, files, options: values, output } as unknown as Command };
}

interface Sorted {
  /** Words that are neither options nor their values, each with the option that it follows. */
  plain: { word: string; after: string | null }[];
  given: Map<OptionName | Format, string[]>;
  help: boolean;
  problems: string[];
}

/** Tell options, their values and plain words apart; what is wrong with that alone is noted. */
function sortWords(words: readonly string[]): Sorted {
  const sorted: Sorted = { plain: [], given: new Map(), help: false, problems: [] };
  let after: string | null = null;

  for (let i = 0; i < words.length; i++) {
    const word = words[i] ?? '';
    if (!isOptionLike(word)) {
      sorted.plain.push({ word, after });
      after = null;
      continue;
    }
    const [written = '', ...behind] = word.split('=');
    const inline = behind.length > 0 ? [behind.join('=')] : [];
    after = null;

    const name = [...optionNames, ...formatNames].find(each => `--${each}` === written);
    if (written === '--help') {
      sorted.help = true;
      continue;
    }
    if (name === undefined) {
      const meant = meantOption(written, words);
      sorted.problems.push(unknownOption(written, meant));
      if (meant !== null && inline.length === 0) i += valuesBehind(meant, words, i).length;
      continue;
    }

    const wanted = valuesOf(name);
    const behindIt = valuesBehind(name, words, i).slice(0, wanted.length - inline.length);
    const values = [...inline, ...behindIt];
    i += behindIt.length;
    if (values.length > wanted.length) {
      sorted.problems.push(
        `--${name} takes no value, and ${quoted(values[0] ?? '')} stands behind it`,
      );
    } else if (values.length < wanted.length || values.some(value => value.trim() === '')) {
      sorted.problems.push(missing(name, wanted, values));
    } else if (sorted.given.has(name)) {
      sorted.problems.push(givenTwice(name, sorted.given.get(name) ?? [], values));
    } else {
      sorted.given.set(name, values);
      if (wanted.length > 0) after = name;
    }
  }
  return sorted;
}

function isOptionLike(word: string): boolean {
  return word.startsWith('-') && word !== '-';
}

function isFormat(name: Known): name is Format {
  return formatNames.some(each => each === name);
}

type Known = OptionName | Format | 'help';

/** What stands in the help for each value that an option takes; formats and help take none. */
function valuesOf(name: Known): readonly string[] {
  return name === 'help' || isFormat(name) ? [] : options[name].values;
}

/** The words behind the option at `i` that can be its values, up to as many as it takes. */
function valuesBehind(name: Known, words: readonly string[], i: number): string[] {
  const behind = words.slice(i + 1, i + 1 + valuesOf(name).length);
  const end = behind.findIndex(word => word.startsWith('--'));
  return end < 0 ? behind : behind.slice(0, end);
}

function readFiles(verb: Verb, plain: Sorted['plain'], problems: string[]): FileArgument[] {
  const wanted = verbTable[verb].files;
  const missingFiles = wanted.length - plain.length;
  if (missingFiles > 0) {
    const shape = `axlewalk ${verb} ${wanted.join(' ')}`;
    problems.push(
      `${verb}: ${missingFiles === 1 ? 'a file is' : 'two files are'} missing: ${shape}`,
    );
  }
  for (const { word, after } of plain.slice(wanted.length)) {
    const quotes = after
      ? `; a value with a space in it needs quotes: --${after} ${quoted(`… ${word}`)}`
      : '';
    const takes = wanted.length === 1 ? 'one file' : 'two files';
    problems.push(`${verb} takes ${takes}, and ${quoted(word)} is one word too many${quotes}`);
  }
  return plain.slice(0, wanted.length).map(({ word }) => readFile(verb, word, problems));
}

/**
 * The variant follows the `#` behind `.json`, so that folders and variants may have a `#` in their
 * names; where there is no `.json`, it follows the first `#`.
 */
function readFile(verb: Verb, word: string, problems: string[]): FileArgument {
  const parts = /^(.*?\.json)(?:#(.*))?$/is.exec(word) ?? /^([^#]*)(?:#(.*))?$/s.exec(word);
  const path = parts?.[1] ?? word;
  const variant = parts?.[2] ?? null;
  if (path.trim() === '') {
    problems.push(`${verb}: ${quoted(word)} names no file: FILE or FILE#VARIANT`);
  } else if (variant !== null && verb === 'new') {
    problems.push(
      `new: ${quoted(word)} has a # in it, which sets off a variant: choose a name without`,
    );
  } else if (variant?.trim() === '') {
    problems.push(`${verb}: ${quoted(word)} names no variant after its #: FILE or FILE#VARIANT`);
  }
  return { path, variant };
}

function verbProblem(word: string | undefined): string {
  const list = `verbs are ${verbNames.join(', ')}; axlewalk --help explains them`;
  if (word === undefined) return `no verb is given: ${list}`;
  const meant = nearest(word, verbNames);
  return `unknown verb ${quoted(word)}: ${meant ? `did you mean ${meant}? ` : ''}${list}`;
}

/** The option that a slip was meant to be; those of the verb that stands there come first. */
function meantOption(written: string, words: readonly string[]): Known | null {
  const verb = verbNames.find(name => words.includes(name));
  const taken = verb ? [...verbTable[verb].options, ...verbTable[verb].formats] : [];
  const all: Known[] = [...taken, ...optionNames, ...formatNames, 'help'];
  const meant = nearest(written.replace(/^-+/, ''), all);
  return all.find(name => name === meant) ?? null;
}

function unknownOption(written: string, meant: Known | null): string {
  if (/^-[\d.]/.test(written)) {
    return `${quoted(written)} follows no option that takes a value, such as --left -5`;
  }
  return `unknown option ${quoted(written)}: ${meant ? `did you mean --${meant}?` : seeHelp}`;
}

function missing(name: string, wanted: readonly string[], values: readonly string[]): string {
  const standing = values.filter(value => value.trim() !== '').map(quoted);
  const stands = standing.length > 0 ? `, ${standing[0]} is all that stands there` : '';
  const what = wanted.length === 1 ? 'a value' : 'two values';
  return `--${name} needs ${what}${stands}: --${name} ${wanted.join(' ')}`;
}

function givenTwice(name: string, before: readonly string[], now: readonly string[]): string {
  const list = (words: readonly string[]) => words.map(quoted).join(' ');
  const values = before.length > 0 ? `, as ${list(before)} and as ${list(now)}` : '';
  return `--${name} is given twice${values}: keep one`;
}

/** A word as typed, in quotes, on one line whatever is in it. */
function quoted(word: string): string {
  const shown = word.length > 60 ? `${word.slice(0, 59)}…` : word;
  return `'${shown.replace(/[\p{Cc}\p{Zl}\p{Zp}]/gu, '�')}'`;
}

function notTaken(verb: Verb, name: OptionName | Format): string {
  const takers = verbNames.filter(each => {
    const { options: own, formats } = verbTable[each];
    return [...own, ...formats].includes(name);
  });
  const others =
    takers.length > 0 ? `that is for ${takers.join(', ')}` : 'no verb of this version does';
  return `${verb} does not take --${name}: ${others}`;
}

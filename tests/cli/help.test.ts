import { expect, test } from 'vitest';
import { parseArguments } from '../../src/cli/arguments.ts';
import { helpText } from '../../src/cli/help.ts';
import { formatNames, optionNames, verbNames, verbTable } from '../../src/cli/verbs.ts';

/** Split as a shell does, as far as the examples go: single quotes keep spaces. */
function shellWords(line: string): string[] {
  return [...line.matchAll(/'([^']*)'|[^\s']+/g)].map(match => match[1] ?? match[0]);
}

test('every example in the help is a command that the parser takes', () => {
  for (const verb of verbNames) {
    expect(verbTable[verb].examples.length).toBeGreaterThan(0);
    for (const [line] of verbTable[verb].examples) {
      expect(parseArguments(shellWords(line)), line).toMatchObject({ command: { verb } });
      expect(helpText(verb)).toContain(line);
    }
  }
});

test('the help of a verb names its options and formats and no others', () => {
  for (const verb of verbNames) {
    const named = [...helpText(verb).matchAll(/^ {2}--(\w+)/gm)].map(match => match[1]);
    expect(named).toEqual([...verbTable[verb].options, ...verbTable[verb].formats, 'help']);
  }
});

test('the general help names every verb', () => {
  const general = helpText(null);
  for (const verb of verbNames) expect(general).toMatch(new RegExp(`^  ${verb} FILE`, 'm'));
});

test('every option and format has a verb', () => {
  const taken = verbNames.flatMap(verb => [...verbTable[verb].options, ...verbTable[verb].formats]);
  for (const name of [...optionNames, ...formatNames]) expect(taken).toContain(name);
});

test('lines fit a terminal of 100 columns, and no text calls anything safe', () => {
  for (const verb of [null, ...verbNames]) {
    const lines = helpText(verb).split('\n');
    for (const line of lines) expect(line.length, line).toBeLessThanOrEqual(100);
    expect(helpText(verb)).not.toMatch(/\bsafe/i);
  }
});

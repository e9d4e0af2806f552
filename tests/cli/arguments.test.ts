import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { readArguments, USAGE } from '../../src/cli/arguments.ts';

const refusal = (...argv: string[]) => {
  try {
    readArguments(argv);
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return (error as InputError).message;
  }
  return expect.unreachable('nothing was thrown');
};

describe('the command line', () => {
  test('a file alone takes the defaults', () => {
    expect(readArguments(['a.csv'])).toEqual({
      file: 'a.csv',
      sport: undefined,
      curve: null,
      baseline: 'lowest-two',
      ends: 'fitted',
      draws: 2000,
      seed: 1,
      json: false,
    });
  });

  test('every option, before or after the file', () => {
    const argv =
      '--sport rowing --curve=cubic a.csv --baseline rest --ends measured --draws 0 --seed 7 --json'.split(
        ' ',
      );
    expect(readArguments(argv)).toEqual({
      file: 'a.csv',
      sport: 'rowing',
      curve: 'cubic',
      baseline: 'rest',
      ends: 'measured',
      draws: 0,
      seed: 7,
      json: true,
    });
  });

  test('help is asked for', () => {
    expect(readArguments(['--help'])).toBeNull();
    expect(readArguments(['-h'])).toBeNull();
  });

  test('the help names every option', () => {
    for (const option of [
      '--sport',
      '--curve',
      '--baseline',
      '--ends',
      '--draws',
      '--seed',
      '--json',
      '--help',
    ])
      expect(USAGE).toContain(option);
  });

  test.each([
    [['--sport', 'swimming', 'a.csv'], '--sport swimming: expected one of cycling, running, rowing'],
    [['--curve', 'spline', 'a.csv'], '--curve spline: expected one of raw, cubic, quartic, exponential'],
    [['--baseline', 'low', 'a.csv'], '--baseline low: expected one of rest, first, lowest, lowest-two'],
    [['--ends', 'both', 'a.csv'], '--ends both: expected one of fitted, measured'],
    [['--draws', '1.5', 'a.csv'], '--draws 1.5: expected a whole number from 0 to 1000000'],
    [['--draws', '9999999', 'a.csv'], '--draws 9999999: expected a whole number from 0 to 1000000'],
    [['--seed=-1', 'a.csv'], '--seed -1: expected a whole number from 0 to 4294967295'],
    [['a.csv', 'b.csv'], '2 files (a.csv, b.csv); expected one'],
    [[], 'no file; expected FILE.csv, or - for standard input (--help explains)'],
    [['a.csv', '--draws'], '--draws: expected a value after it'],
    [['a.csv', '--json=yes'], '--json: takes no value'],
    [
      ['a.csv', '--metre', '3'],
      '--metre: no such option; there are --sport, --curve, --baseline, --ends, --draws, --seed, --json, --help',
    ],
    [
      ['a.csv', '-x'],
      '-x: no such option; there are --sport, --curve, --baseline, --ends, --draws, --seed, --json, --help',
    ],
  ])('%j is refused', (argv, message) => {
    expect(refusal(...argv)).toBe(message);
  });
});

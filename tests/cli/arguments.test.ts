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
    const args = {
      protocol: 'step',
      recovery: null,
      sport: undefined,
      meter: 'handheld',
      mass: null,
      exhaustion: null,
      curve: null,
      baseline: 'lowest-two',
      ends: 'fitted',
      anchor: 'previous-stage',
      slope: null,
      draws: 2000,
      seed: 1,
      json: false,
    };
    expect(readArguments(['a.csv'])).toEqual({ do: 'estimate', files: ['a.csv'], args });
  });

  test('every option, before or after the file', () => {
    const argv =
      '--sport rowing --curve=cubic a.csv --baseline rest --ends measured --anchor baseline --slope 0.05 --meter bench --mass 71.5 --exhaustion no --recovery r.csv --draws 0 --seed 7 --json'.split(
        ' ',
      );
    const args = {
      protocol: 'step',
      recovery: 'r.csv',
      sport: 'rowing',
      meter: 'bench',
      mass: 71.5,
      exhaustion: false,
      curve: 'cubic',
      baseline: 'rest',
      ends: 'measured',
      anchor: 'baseline',
      slope: 0.05,
      draws: 0,
      seed: 7,
      json: true,
    };
    expect(readArguments(argv)).toEqual({ do: 'estimate', files: ['a.csv'], args });
  });

  test('several files, another protocol, the list', () => {
    expect(readArguments(['a.csv', 'b.csv', '--protocol', 'bouts'])).toMatchObject({
      files: ['a.csv', 'b.csv'],
      args: { protocol: 'bouts' },
    });
    expect(readArguments(['--list'])).toEqual({ do: 'list', json: false });
    expect(readArguments(['--json', '--list'])).toEqual({ do: 'list', json: true });
  });

  test('help is asked for', () => {
    expect(readArguments(['--help'])).toEqual({ do: 'help' });
    expect(readArguments(['-h'])).toEqual({ do: 'help' });
  });

  test('the help names every option', () => {
    for (const option of [
      '--sport',
      '--meter',
      '--mass',
      '--exhaustion',
      '--curve',
      '--baseline',
      '--ends',
      '--anchor',
      '--slope',
      '--protocol',
      '--recovery',
      '--draws',
      '--seed',
      '--json',
      '--list',
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
    [['--draws', '-5', 'a.csv'], '--draws -5: expected a whole number from 0 to 1000000'],
    [['--slope', '-0.1', 'a.csv'], '--slope -0.1: expected a number above 0'],
    [['--draws', '--json', 'a.csv'], '--draws: expected a value after it'],
    [['--meter', 'lab', 'a.csv'], '--meter lab: expected one of handheld, bench'],
    [['--mass', '0', 'a.csv'], '--mass 0: expected a number above 0'],
    [['--exhaustion', 'maybe', 'a.csv'], '--exhaustion maybe: expected one of yes, no'],
    [['--draws', '9999999', 'a.csv'], '--draws 9999999: expected a whole number from 0 to 1000000'],
    [['--seed=-1', 'a.csv'], '--seed -1: expected a whole number from 0 to 4294967295'],
    [['a.csv', 'b.csv', '--recovery', 'r.csv'], '--recovery r.csv with 2 files; expected one'],
    [['-', '--recovery', '-'], '- twice; standard input can be read once'],
    [
      ['a.csv', '--recovery', 'r.csv', '--protocol', 'reverse'],
      '--recovery goes with --protocol step, not reverse',
    ],
    [['--list', 'a.csv'], '--list with a.csv; expected no file'],
    [
      ['a.csv', '--protocol', 'ramp'],
      '--protocol ramp: expected one of step, lactate-minimum, reverse, bouts',
    ],
    [['a.csv', '--anchor', 'rest'], '--anchor rest: expected one of previous-stage, baseline'],
    [['a.csv', '--slope', '0'], '--slope 0: expected a number above 0'],
    [['a.csv', '--slope', 'steep'], '--slope steep: expected a number above 0'],
    [[], 'no file; expected FILE.csv, or - for standard input (--help explains)'],
    [['a.csv', '--draws'], '--draws: expected a value after it'],
    [['a.csv', '--json=yes'], '--json: takes no value'],
    [
      ['a.csv', '--metre', '3'],
      '--metre: no such option; there are --sport, --meter, --mass, --exhaustion, --curve, --baseline, --ends, --anchor, --slope, --protocol, --recovery, --draws, --seed, --json, --batch, --list, --help',
    ],
    [
      ['a.csv', '-x'],
      '-x: no such option; there are --sport, --meter, --mass, --exhaustion, --curve, --baseline, --ends, --anchor, --slope, --protocol, --recovery, --draws, --seed, --json, --batch, --list, --help',
    ],
  ])('%j is refused', (argv, message) => {
    expect(refusal(...argv)).toBe(message);
  });
});

import { parseArgs } from 'node:util';
import { InputError } from '../base/inputError.ts';
import type { Sport } from '../base/units.ts';
import type { BaselineRule, CurveId } from '../physiology/stepTest.ts';

export interface Arguments {
  /** '-' for standard input. */
  file: string;
  sport: Sport | undefined;
  /** Null: each method's own default. */
  curve: CurveId | null;
  baseline: BaselineRule;
  ends: 'fitted' | 'measured';
  draws: number;
  seed: number;
  json: boolean;
}

const SPORTS: Sport[] = ['cycling', 'running', 'rowing'];
const CURVES: CurveId[] = ['raw', 'cubic', 'quartic', 'exponential'];
const BASELINES: BaselineRule[] = ['rest', 'first', 'lowest', 'lowest-two'];
const ENDS: ('fitted' | 'measured')[] = ['fitted', 'measured'];

/** Some twenty seconds and 150 MB. */
const MOST_DRAWS = 1_000_000;
const DEFAULT_DRAWS = 2000;
const DEFAULT_SEED = 1;

const OPTIONS = {
  sport: { type: 'string' },
  curve: { type: 'string' },
  baseline: { type: 'string', default: 'lowest-two' },
  ends: { type: 'string', default: 'fitted' },
  draws: { type: 'string', default: String(DEFAULT_DRAWS) },
  seed: { type: 'string', default: String(DEFAULT_SEED) },
  json: { type: 'boolean', default: false },
  help: { type: 'boolean', short: 'h', default: false },
} as const;

export const USAGE = `Lactate thresholds of a step test with their sampling error.

npm run --silent estimate -- FILE.csv [options]

FILE.csv            a table with a row of headings and a row for each stage; - reads standard input.
                    Headings in any order: power (W), speed (km/h) or pace (min/km), lactate (mmol/L),
                    and if known stage, duration (min), heart rate (bpm), RPE, body mass (kg)
--sport SPORT       ${SPORTS.join(', ')}; without it told from the columns
--curve CURVE       ${CURVES.join(', ')}; for methods that read a level off a curve,
                    without it each method's own
--baseline RULE     ${BASELINES.join(', ')} (default lowest-two)
--ends ENDS         ${ENDS.join(', ')}: ends of the chord of the Dmax methods (default fitted)
--draws N           Monte Carlo draws for the 95 % intervals, 0 for none (default ${DEFAULT_DRAWS})
--seed S            seed of the draws (default ${DEFAULT_SEED})
--json              one JSON object instead of tables; intensities unrounded, W or km/h
--help              this text

Errors of a handheld meter are assumed. Exit codes: 0 done, 2 the input or an option cannot be used.
`;

/** One of the words an option takes. */
function oneOf<T extends string>(option: string, value: string, words: readonly T[]): T {
  const word = words.find((candidate) => candidate === value);
  if (word !== undefined) return word;
  throw new InputError(`--${option} ${value}: expected one of ${words.join(', ')}`, { field: `--${option}` });
}

function wholeNumber(option: string, value: string, most: number): number {
  const number = /^\d+$/.test(value) ? Number(value) : Number.NaN;
  if (number <= most) return number;
  throw new InputError(`--${option} ${value}: expected a whole number from 0 to ${most}`, {
    field: `--${option}`,
  });
}

function parse(argv: string[]) {
  try {
    return parseArgs({ args: argv, options: OPTIONS, allowPositionals: true });
  } catch (error) {
    const option = /'(?:-\w, )?(-{1,2}[^ ']+)/.exec((error as Error).message)?.[1];
    const known = Object.keys(OPTIONS).map((name) => `--${name}`);
    if (option && known.includes(option)) {
      const type = OPTIONS[option.slice(2) as keyof typeof OPTIONS].type;
      throw new InputError(
        `${option}: ${type === 'string' ? 'expected a value after it' : 'takes no value'}`,
      );
    }
    throw new InputError(`${option ?? argv.join(' ')}: no such option; there are ${known.join(', ')}`);
  }
}

/** The command line as checked values; null when it asks for help. */
export function readArguments(argv: string[]): Arguments | null {
  const { values, positionals } = parse(argv);
  if (values.help) return null;
  const [file] = positionals;
  if (file === undefined)
    throw new InputError('no file; expected FILE.csv, or - for standard input (--help explains)');
  if (positionals.length > 1)
    throw new InputError(`${positionals.length} files (${positionals.join(', ')}); expected one`);
  return {
    file,
    sport: values.sport === undefined ? undefined : oneOf('sport', values.sport, SPORTS),
    curve: values.curve === undefined ? null : oneOf('curve', values.curve, CURVES),
    baseline: oneOf('baseline', values.baseline, BASELINES),
    ends: oneOf('ends', values.ends, ENDS),
    draws: wholeNumber('draws', values.draws, MOST_DRAWS),
    seed: wholeNumber('seed', values.seed, 2 ** 32 - 1),
    json: values.json,
  };
}

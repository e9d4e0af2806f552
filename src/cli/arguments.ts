import { parseArgs } from 'node:util';
import { InputError } from '../base/inputError.ts';
import type { Sport } from '../base/units.ts';
import type { MethodOptions } from '../physiology/methods/method.ts';
import { PROTOCOL_NAMES } from '../physiology/refusal.ts';
import type { BaselineRule, CurveId, Protocol, StageProtocol } from '../physiology/stepTest.ts';

/** What the command is asked to do. */
export type Command =
  | { do: 'help' }
  | { do: 'list'; json: boolean }
  | { do: 'estimate'; files: readonly string[]; args: Arguments }
  /** `file` may be '-'. */
  | { do: 'batch'; file: string; args: BatchArguments };

/** Whose usual errors the draws have: a handheld meter's, or those of a laboratory analyser. */
export type Meter = 'handheld' | 'bench';

/** The options of a command, read and checked; `USAGE` explains them. */
export interface Arguments {
  protocol: Protocol;
  /** Table of recovery samples; null without one. */
  recovery: string | null;
  sport: Sport | undefined;
  /** Whose errors the draws have. */
  meter: Meter;
  /** kg; null: what the table says, if anything. */
  mass: number | null;
  /** Whether the athlete went to exhaustion; null: guessed from the last stage. */
  exhaustion: boolean | null;
  /** Null: each method's own default. */
  curve: CurveId | null;
  baseline: BaselineRule;
  ends: MethodOptions['ends'];
  anchor: MethodOptions['anchor'];
  /** mmol/L per W or km/h; null: the published one. */
  slope: number | null;
  draws: number;
  seed: number;
  json: boolean;
}

/** Bouts are several tests, so that a line or a row of many cannot hold them. */
export type BatchArguments = Arguments & { protocol: StageProtocol };

const SPORTS: Sport[] = ['cycling', 'running', 'rowing'];
const METERS: Meter[] = ['handheld', 'bench'];
const ANSWERS = ['yes', 'no'] as const;
const CURVES: CurveId[] = ['raw', 'cubic', 'quartic', 'exponential'];
const BASELINES: BaselineRule[] = ['rest', 'first', 'lowest', 'lowest-two'];
const ENDS: MethodOptions['ends'][] = ['fitted', 'measured'];
const ANCHORS: MethodOptions['anchor'][] = ['previous-stage', 'baseline'];
const PROTOCOLS = Object.keys(PROTOCOL_NAMES) as Protocol[];

/** Some twenty seconds and 150 MB. */
const MOST_DRAWS = 1_000_000;
const DEFAULT_DRAWS = 2000;
const DEFAULT_SEED = 1;

const OPTIONS = {
  sport: { type: 'string' },
  meter: { type: 'string', default: 'handheld' },
  mass: { type: 'string' },
  exhaustion: { type: 'string' },
  curve: { type: 'string' },
  baseline: { type: 'string', default: 'lowest-two' },
  ends: { type: 'string', default: 'fitted' },
  anchor: { type: 'string', default: 'previous-stage' },
  slope: { type: 'string' },
  protocol: { type: 'string', default: 'step' },
  recovery: { type: 'string' },
  draws: { type: 'string' },
  seed: { type: 'string', default: String(DEFAULT_SEED) },
  json: { type: 'boolean', default: false },
  batch: { type: 'boolean', default: false },
  list: { type: 'boolean', default: false },
  help: { type: 'boolean', short: 'h', default: false },
} as const;

/** What `--help` prints. */
export const USAGE = `Lactate thresholds of a step test with their sampling error.

npm run --silent estimate -- FILE.csv [FILE.csv ...] [options]
npm run --silent estimate -- --batch [FILE] [options]
npm run --silent estimate -- --list [--json]

FILE.csv            a table with a row of headings and a row for each stage, as text or .xlsx; - reads
                    standard input.
                    Headings in any order: power (W), speed (km/h) or pace (min/km), lactate (mmol/L),
                    and if known stage, duration (min), heart rate (bpm), RPE, body mass (kg),
                    oxygen uptake (L/min, ml/min or ml/min/kg). A row marked rest is kept apart; rows
                    such as recovery 3 min are samples after the end. A heading in another language
                    is taken for what its unit tells, where one column alone can be meant
--protocol KIND     ${PROTOCOLS.join(', ')} (default step). For lactate-minimum the row before the
                    first stage is marked recovery; bouts: a row for each sample with power or speed,
                    minute, lactate, and perhaps completed (yes or no)
--recovery FILE     samples after the end of the test: minute, lactate, and perhaps mode (passive,
                    active)
--sport SPORT       ${SPORTS.join(', ')}; without it told from the columns
--meter METER       ${METERS.join(', ')}: whose errors the intervals come from (default handheld)
--mass KG           body mass, for W/kg; without it the one of the table, if any
--exhaustion yes|no whether the athlete went to exhaustion; without it told from the last stage
--curve CURVE       ${CURVES.join(', ')}; for methods that read a level off a curve;
                    without it each method's own, most often raw. The workbook starts out with
                    exponential: give --curve exponential for its figures
--baseline RULE     ${BASELINES.join(', ')} (default lowest-two)
--ends ENDS         ${ENDS.join(', ')}: ends of the chord of the Dmax methods (default fitted)
--anchor ANCHOR     ${ANCHORS.join(', ')}: what the first rise of the modified Dmax
                    methods is over (default previous-stage)
--slope S           slope for the fixed-slope method, mmol/L per W or km/h
--draws N           Monte Carlo draws for the 95 % intervals, 0 for none (default ${DEFAULT_DRAWS}; 0 with --batch)
--seed S            seed of the draws (default ${DEFAULT_SEED})
--json              JSON instead of tables: an object for one file, an array of such objects for several;
                    intensities unrounded, W or km/h; an interval with an end beyond the tested range
                    is null, and a warning says which end lies beyond what
--batch             many tests, from FILE or standard input to standard output as they come, a line of JSON
                    for each in their order: {"id", "sport", "unit", "stages", "warnings", "estimates"},
                    or {"id", "error"} for a test that cannot be used. What the checks of a whole test
                    find is left to the report of one.
                    In goes a line of JSON for each test: {"id", "sport", "stages": [{"power" or
                    "speed", "lactate", "heartRate"?, "rpe"?, "minutes"?}], "restLactate"?,
                    "lactateBefore"?, "stageMinutes"?, "bodyMass"?}; or a table with a column such as
                    id, athlete or date and either a row for each stage (those of a test together) or
                    a row for each test (power 1, lactate 1, power 2, ... or lactate 120 W, lactate
                    150 W, ...), as text or .xlsx. No draws without --draws
--list              every method with its claim, source and needs; with --json {"methods": [...]}
--help              this text

Exit codes: 0 done, 2 the input or an option cannot be used.
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

/** A negative number after an option is its value, though it looks like an option. */
function withNegatives(argv: string[]): string[] {
  const joined: string[] = [];
  for (const word of argv) {
    const option = /^--(\w+)$/.exec(joined.at(-1) ?? '')?.[1];
    const takesValue = option !== undefined && OPTIONS[option as keyof typeof OPTIONS]?.type === 'string';
    if (takesValue && /^-[\d.]/.test(word)) joined[joined.length - 1] += `=${word}`;
    else joined.push(word);
  }
  return joined;
}

function parse(argv: string[]) {
  try {
    return parseArgs({ args: withNegatives(argv), options: OPTIONS, allowPositionals: true });
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

function positive(option: string, value: string): number {
  const number = /^[\d.]+(e-?\d+)?$/i.test(value) ? Number(value) : Number.NaN;
  if (number > 0 && number < Infinity) return number;
  throw new InputError(`--${option} ${value}: expected a number above 0`, { field: `--${option}` });
}

/** Standard input can be read once, and recovery samples belong to one test. */
function checkFiles(files: readonly string[], recovery: string | undefined): void {
  if (files.length === 0)
    throw new InputError('no file; expected FILE.csv, or - for standard input (--help explains)');
  if ([...files, recovery].filter((file) => file === '-').length > 1)
    throw new InputError('- twice; standard input can be read once');
  if (recovery !== undefined && files.length > 1)
    throw new InputError(`--recovery ${recovery} with ${files.length} files; expected one`);
}

type Values = ReturnType<typeof parse>['values'];

function checkedArguments(values: Values): Arguments {
  const protocol = oneOf('protocol', values.protocol, PROTOCOLS);
  if (values.recovery !== undefined && protocol !== 'step')
    throw new InputError(`--recovery goes with --protocol step, not ${protocol}`);
  const usualDraws = values.batch ? 0 : DEFAULT_DRAWS;
  return {
    protocol,
    recovery: values.recovery ?? null,
    sport: values.sport === undefined ? undefined : oneOf('sport', values.sport, SPORTS),
    meter: oneOf('meter', values.meter, METERS),
    mass: values.mass === undefined ? null : positive('mass', values.mass),
    exhaustion:
      values.exhaustion === undefined ? null : oneOf('exhaustion', values.exhaustion, ANSWERS) === 'yes',
    curve: values.curve === undefined ? null : oneOf('curve', values.curve, CURVES),
    baseline: oneOf('baseline', values.baseline, BASELINES),
    ends: oneOf('ends', values.ends, ENDS),
    anchor: oneOf('anchor', values.anchor, ANCHORS),
    slope: values.slope === undefined ? null : positive('slope', values.slope),
    draws: wholeNumber('draws', values.draws ?? String(usualDraws), MOST_DRAWS),
    seed: wholeNumber('seed', values.seed, 2 ** 32 - 1),
    json: values.json,
  };
}

function batchCommand(files: readonly string[], args: Arguments): Command {
  const { protocol, recovery } = args;
  if (files.length > 1) throw new InputError(`--batch with ${files.length} files; expected one or none`);
  if (recovery !== null)
    throw new InputError(`--recovery ${recovery} with --batch; expected one or the other`);
  if (protocol === 'bouts') throw new InputError('--protocol bouts with --batch; expected one or the other');
  return { do: 'batch', file: files[0] ?? '-', args: { ...args, protocol } };
}

/** The command line as checked values. */
export function readArguments(argv: string[]): Command {
  const { values, positionals } = parse(argv);
  if (values.help) return { do: 'help' };
  if (values.list) {
    if (positionals.length > 0)
      throw new InputError(`--list with ${positionals.join(', ')}; expected no file`);
    return { do: 'list', json: values.json };
  }
  if (values.batch) return batchCommand(positionals, checkedArguments(values));
  checkFiles(positionals, values.recovery);
  return { do: 'estimate', files: positionals, args: checkedArguments(values) };
}

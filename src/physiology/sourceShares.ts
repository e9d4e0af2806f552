import { moments } from '../numerics/moments.ts';
import { Random } from '../numerics/random.ts';
import { type SobolValues, sobolShares } from '../numerics/sobolShares.ts';
import { plausibleCurves } from './adequateCurves.ts';
import { ANSWER_INPUTS, type AnswerInput, RowLayout, RowNumbers } from './drawRows.ts';
import type { ErrorModel } from './errorModel.ts';
import type { LactateDraws } from './lactateDraws.ts';
import { methodsFor } from './methods/index.ts';
import type { Method, MethodOptions } from './methods/method.ts';
import { PreparedMethods, withDefaults } from './preparedMethods.ts';
import { readingDraws, writeOthers } from './readingDraws.ts';
import type { SamplerOptions } from './samplingError.ts';
import { answersOf, changed } from './shifts.ts';
import type { BaselineRule, CurveId, Readings } from './stepTest.ts';
import { isNominal } from './thresholdDraws.ts';

/** What the spread of one method's answer comes from. */
export interface SourceShares {
  method: string;
  /** Standard deviation with all errors and choices at once, W or km/h; null without answers. */
  sd: number | null;
  /** Share of the variance that each explains alone, and with others; 0 where noise puts it below. */
  first: Record<AnswerInput, number>;
  total: Record<AnswerInput, number>;
  /** Monte Carlo standard errors of both. */
  firstError: Record<AnswerInput, number>;
  totalError: Record<AnswerInput, number>;
  /** Share of the draws that could not be used, for one of their answers was refused. */
  lost: number;
}

/** How often is drawn, and which choices of the analysis are drawn along. */
export interface SourceSharesOptions extends Omit<SamplerOptions, 'heartRates'> {
  /** Rows of each of the two samples; every one costs a draw for each input and two. */
  draws: number;
  /** The same test with its last stage treated otherwise, when it was not finished. */
  lastStages?: readonly Readings[];
  /** Curves that might have been chosen; when left out, all that the readings' own errors allow. */
  curves?: readonly CurveId[];
  /** Baselines that might have been chosen; when left out, all that the test has. */
  baselines?: readonly BaselineRule[];
}

/**
 * What an answer owes its spread to, choices of the analyst included: curve, baseline, and what an unfinished last stage
 * counts for, each option as likely as the others.
 *
 * Model     shares of variance after Sobol, first order and total, over the draws of `LactateDraws`; a choice is one
 *           more input. Noise of a reading is parted into repeatability, delay and jitter
 * Missing   null for methods whose spread is that of people; draws with a refusal are left out and counted
 * Random    seeded; standard errors are part of the result
 * Cost      13 times `draws` draws of every method
 * Source    Saltelli et al. 2010, Comput Phys Commun 181:259–270 (from memory); choices as inputs are our rule
 */
export function sourceShares(readings: Readings, given: SourceSharesOptions): (SourceShares | null)[] {
  let shares: (SourceShares | null)[] = [];
  for (const step of sourceSharesInSteps(readings, given)) if (step.share === 1) shares = step.shares();
  return shares;
}

interface SourceSharesStep {
  /** Share of the draws made. */
  share: number;
  /** What they say so far. */
  shares(): (SourceShares | null)[];
}

/** Draws after which the caller gets control back: a few milliseconds. */
const SLICE = 20;

/** The same a few draws at a time, for a page that has to stay alive meanwhile. */
export function* sourceSharesInSteps(
  readings: Readings,
  given: SourceSharesOptions,
): Generator<SourceSharesStep, void> {
  const study = new Study(readings, given);
  const { layout, methods } = study;
  const random = new Random(given.seed);
  const row = () => new Float64Array(layout.width);
  const [a, b, mixed] = [row(), row(), row()];
  const values = methods.map(() => emptyValues(given.draws));
  const keep = (numbers: Float64Array, d: number, column: (values: SobolValues) => Float64Array) => {
    study.answers(numbers).forEach((answer, m) => {
      column(values[m]!)[d] = answer;
    });
  };
  for (let d = 0; d < given.draws; d++) {
    layout.draw(a, random);
    layout.draw(b, random);
    keep(a, d, (of) => of.a);
    keep(b, d, (of) => of.b);
    for (const [k, input] of ANSWER_INPUTS.entries()) {
      layout.mix(mixed, a, b, input);
      keep(mixed, d, (of) => of.mixed[k]!);
    }
    const made = d + 1;
    if (made % SLICE !== 0 && made < given.draws) continue;
    const shares = () =>
      methods.map((method, m) => (study.byPeople(method) ? null : sharesOf(method.id, values[m]!, made)));
    yield { share: made / given.draws, shares };
  }
}

const emptyValues = (draws: number): SobolValues => ({
  a: new Float64Array(draws),
  b: new Float64Array(draws),
  mixed: ANSWER_INPUTS.map(() => new Float64Array(draws)),
});

function sharesOf(method: string, all: SobolValues, made: number): SourceShares {
  const values = {
    a: all.a.subarray(0, made),
    b: all.b.subarray(0, made),
    mixed: all.mixed.map((one) => one.subarray(0, made)),
  };
  const { first, total, firstError, totalError, rows } = sobolShares(values);
  const named = (shares: readonly number[]) =>
    Object.fromEntries(ANSWER_INPUTS.map((input, k) => [input, Math.max(0, shares[k]!)])) as Record<
      AnswerInput,
      number
    >;
  const { sd } = moments(values.a.filter(Number.isFinite));
  return {
    method,
    sd: Number.isNaN(sd) ? null : sd,
    first: named(first),
    total: named(total),
    firstError: named(firstError),
    totalError: named(totalError),
    lost: 1 - rows / values.a.length,
  };
}

/** One test with everything that may be chosen about it. */
class Study {
  readonly layout: RowLayout;
  readonly methods: readonly Method[];
  readonly #options: MethodOptions;
  readonly #scaled: boolean;
  readonly #curves: readonly CurveId[];
  readonly #baselines: readonly BaselineRule[];
  readonly #treatments: Treatment[];

  constructor(readings: Readings, { lastStages = [], ...given }: SourceSharesOptions) {
    this.#options = withDefaults(given.options);
    this.methods = methodsFor(readings, this.#options, given.methods);
    this.#scaled = given.intensityScale !== 'device';
    this.#curves = given.curves ?? plausibleCurves(readings, given.error);
    this.#baselines = given.baselines ?? baselinesOf(readings);
    const all = [readings, ...lastStages];
    const points = Math.max(...all.map(({ y }) => y.length));
    this.layout = new RowLayout(points + Math.max(...all.map(otherSamples)));
    this.#treatments = all.map((one) => new Treatment(one, given.error, this.layout, points));
  }

  byPeople(method: Method): boolean {
    return method.spread?.(this.#options) !== undefined;
  }

  /** Answers of all methods for the numbers and the choices of a row; NaN where refused. */
  answers(row: Float64Array): number[] {
    const curve = this.#curves[this.layout.choice(row, 'curve', this.#curves.length)]!;
    const baseline = this.#baselines[this.layout.choice(row, 'baseline', this.#baselines.length)]!;
    const treatment = this.#treatments[this.layout.choice(row, 'lastStage', this.#treatments.length)]!;
    const { draws } = treatment;
    treatment.draw(row);
    const prepared = treatment.prepared(this.methods, { ...this.#options, curve, baseline });
    const answers = answersOf(prepared, draws.y);
    return this.#scaled
      ? answers.map((x, m) => (isNominal(this.methods[m]!) ? x : x * draws.scale))
      : answers;
  }
}

/** The test with one treatment of its last stage. */
class Treatment {
  readonly draws: LactateDraws;
  readonly #readings: Readings;
  readonly #numbers: RowNumbers;
  readonly #prepared = new Map<string, PreparedMethods>();

  constructor(readings: Readings, error: ErrorModel, layout: RowLayout, points: number) {
    // A copy of its own: drawn lactates at rest, before and after the test are written into it.
    this.#readings = changed(readings, (y) => y);
    const own = readings.y.length;
    const places = Array.from({ length: own + otherSamples(readings) }, (_, i) =>
      i < own ? i : points + i - own,
    );
    this.#numbers = new RowNumbers(layout, readings, error, places);
    this.draws = readingDraws(readings, error, this.#numbers);
  }

  draw(row: Float64Array): void {
    this.#numbers.load(row);
    this.draws.next();
    writeOthers(this.draws.others, this.#readings);
  }

  prepared(methods: readonly Method[], options: MethodOptions): PreparedMethods {
    const key = `${options.curve} ${options.baseline}`;
    let prepared = this.#prepared.get(key);
    if (!prepared) {
      prepared = new PreparedMethods(this.#readings, methods, options);
      this.#prepared.set(key, prepared);
    }
    return prepared;
  }
}

/** Samples that are no point of the curve. */
const otherSamples = ({ restLactate, lactateBefore, recovery }: Readings): number =>
  Number(restLactate !== null) + Number(lactateBefore !== null) + (recovery?.lactate.length ?? 0);

const baselinesOf = ({ restLactate }: Readings): BaselineRule[] => [
  'first',
  'lowest',
  'lowest-two',
  ...(restLactate === null ? [] : (['rest'] as const)),
];

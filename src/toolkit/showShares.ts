import { methodMap } from '../charts/methodMap.ts';
import { ANSWER_INPUTS, type AnswerInput } from '../physiology/drawRows.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import {
  type SourceShares,
  type SourceSharesOptions,
  sourceSharesInSteps,
} from '../physiology/sourceShares.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type ErrorSource, firstOrderShares, oneAtATime, SOURCES } from '../physiology/varianceShares.ts';
import {
  type ChartView,
  type JobView,
  job,
  type StackView,
  stack,
  type TableView,
  table,
} from '../view/view.ts';
import { type Display, errorWords } from './display.ts';
import { SOURCE_NAMES } from './errorSwitches.ts';
import { answered } from './methodRows.ts';

const INPUT_NAMES: Record<AnswerInput, string> = {
  ...SOURCE_NAMES,
  curve: 'choice of curve',
  baseline: 'choice of baseline',
  lastStage: 'last stage counted as',
};

/** Draws of the shares; each costs a draw for every input and two. */
const DRAWS = 2000;
/** Above this share of unusable draws no shares are told (our rule). */
const MOST_LOST = 0.2;

type Given = Omit<SourceSharesOptions, 'draws'> & { display: Display };

/**
 * What each answer owes its spread to, method by method: to first order at once, then by draws with the choices of
 * curve, baseline and last stage among the sources, and one source at a time.
 */
export function showShares(result: SamplingResult, readings: Readings, given: Given): StackView {
  return stack(sharesJob(result, readings, given), aloneJob(result, readings, given));
}

/** Shares with all choices at risk, by draws; until then those of the errors alone, to first order. */
function sharesJob(result: SamplingResult, readings: Readings, { display: _, ...given }: Given): JobView {
  return job({
    label: 'Shares with curve, baseline and last stage open',
    begin: 'at-rest',
    before: errorMap(result, readings, given),
    *steps() {
      for (const { share, shares } of sourceSharesInSteps(readings, { ...given, draws: DRAWS })) {
        const text = `${Math.round(share * DRAWS)} of ${DRAWS} draws`;
        yield { share, text, shown: () => sourceMap(result, shares()) };
      }
    },
  });
}

type Shares = Partial<Record<AnswerInput, number>>;

function errorMap(result: SamplingResult, readings: Readings, given: Omit<Given, 'display'>): ChartView {
  const shares = firstOrderShares(readings, given);
  return sharesMap(
    result,
    new Map(shares.flatMap((one) => (one ? [[one.method, one.bySource] as const] : []))),
    {
      title: 'What the spread comes from: errors alone',
      summary:
        'Per cent of the variance of each answer, to first order, with the curve, the baseline and the last stage as chosen.',
    },
  );
}

function sourceMap(result: SamplingResult, shares: readonly (SourceShares | null)[]): ChartView {
  const usable = shares.filter((one): one is SourceShares => one !== null && one.lost <= MOST_LOST);
  return sharesMap(result, new Map(usable.map((one) => [one.method, one.total])), {
    title: 'What the spread comes from, choices included',
    summary:
      'Per cent of the variance of each answer in which the source has a part, alone or together with others; so a row ' +
      `may add up to more than 100. Curves that the readings rule out are not among the choices.${lostWords(result, shares)}`,
    data: sharesTable(result, usable),
  });
}

/** Which methods have no shares, for too many draws have no answer under one choice or another. */
function lostWords(result: SamplingResult, shares: readonly (SourceShares | null)[]): string {
  const lost = new Set(shares.flatMap((one) => (one !== null && one.lost > MOST_LOST ? [one.method] : [])));
  const names = answered(result).flatMap(({ id, name }) => (lost.has(id) ? [name] : []));
  return names.length === 0 ? '' : ` Too often without an answer to tell: ${names.join(', ')}.`;
}

/** The draws know a share to a few per cent only, and no share is less than nothing or more than all. */
const percent = (share: number): string => (100 * Math.min(1, Math.max(0, share))).toFixed(0);

function sharesMap(
  result: SamplingResult,
  byMethod: ReadonlyMap<string, Shares>,
  about: { title: string; summary: string; data?: TableView },
): ChartView {
  const rows = answered(result).flatMap(({ id, name, claim }) => {
    const shares = byMethod.get(id);
    if (!shares) return [];
    const fields = ANSWER_INPUTS.map((input) => {
      const share = shares[input];
      return share === undefined ? null : { shade: share, text: share < 0.005 ? '·' : percent(share) };
    });
    return [{ name, claim, fields }];
  });
  return methodMap({
    ...about,
    rows,
    columns: ANSWER_INPUTS.map((input) => INPUT_NAMES[input]),
    columnTitle: '',
  });
}

function sharesTable(result: SamplingResult, shares: readonly SourceShares[]): TableView {
  const names = new Map(answered(result).map(({ id, name }) => [id, name]));
  return table({
    caption: 'Shares of the variance, per cent: alone, and with others',
    columns: [
      { key: 'method', heading: 'Method' },
      ...ANSWER_INPUTS.map((input) => ({ key: input, heading: INPUT_NAMES[input], align: 'right' as const })),
      { key: 'lost', heading: 'Draws not usable', unit: '%', align: 'right' },
    ],
    rows: shares
      .filter(({ method }) => names.has(method))
      .map(({ method, first, total, lost }) => ({
        method: names.get(method)!,
        ...Object.fromEntries(
          ANSWER_INPUTS.map((input) => [input, `${percent(first[input])} / ${percent(total[input])}`]),
        ),
        lost: percent(lost),
      })),
    note: 'Sobol shares, first order and total. Each is known to a few per cent from these draws.',
  });
}

/** The spread that each source gives alone, when the reader asks. */
function aloneJob(result: SamplingResult, readings: Readings, { display, ...given }: Given): JobView {
  const sources = Object.keys(SOURCES) as ErrorSource[];
  return job({
    label: 'One source of error at a time',
    begin: 'asked',
    before: null,
    *steps() {
      const alone = oneAtATime(readings, { ...given, draws: 1000 });
      const byMethod = new Map(alone.map((one) => [one.method, one]));
      const rows = answered(result).map(({ id, name }) => {
        const one = byMethod.get(id);
        const words = (sd: number | null | undefined) => (sd == null ? '–' : errorWords(sd));
        return {
          method: name,
          all: words(one?.all),
          ...Object.fromEntries(sources.map((source) => [source, words(one?.alone[source])])),
        };
      });
      const shown = () =>
        table({
          caption: 'Standard deviation with one source alone',
          columns: [
            { key: 'method', heading: 'Method' },
            { key: 'all', heading: 'All at once', unit: display.unit, align: 'right' },
            ...sources.map((key) => ({
              key,
              heading: SOURCE_NAMES[key],
              unit: display.unit,
              align: 'right' as const,
            })),
          ],
          rows,
        });
      yield { share: 1, text: '', shown };
    },
  });
}

import type { CoverageInterval } from '../numerics/coverage.ts';
import { type BootstrapResult, bootstrapInSteps } from '../physiology/bootstrapCheck.ts';
import { coverageCaution } from '../physiology/calibration.ts';
import { MODELS } from '../physiology/curves/index.ts';
import type { SamplerOptions } from '../physiology/samplingError.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { repeatabilityOf, smallestDetectableChange } from '../physiology/training/repeatability.ts';
import {
  folded,
  type JobView,
  job,
  notice,
  prose,
  type StackView,
  stack,
  type TableView,
  table,
} from '../view/view.ts';
import { bareIntensity, bareRange, type Display, errorWords } from './display.ts';
import { type Answered, answered } from './methodRows.ts';

/** What an interval does not hold: the day, and by what it would be off; with the published repeatability of each method. */
export const showNotInside = (
  result: SamplingResult,
  readings: Readings,
  { display, chosen }: { display: Display; chosen: readonly string[] },
): StackView =>
  stack(
    notice(
      'caution',
      'Not in any interval: the day',
      `Sleep, food, heat, training and the hour move lactate from day to day, and no draw knows of them. To say that an athlete
       has changed, use the repeatability of the method from test to test. It holds the error of the meter already: do not add
       the two.`,
    ),
    repeatabilityTable(
      answered(result).filter(({ id }) => chosen.includes(id)),
      readings,
      display,
    ),
    folded('The same for every method', repeatabilityTable(answered(result), readings, display)),
    cautionsList(result),
  );

function repeatabilityTable(methods: readonly Answered[], { sport }: Readings, display: Display): TableView {
  const { unit } = display;
  return table({
    caption: 'From test to test, by what is published',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'sd', heading: 'This test, standard deviation', unit, align: 'right' },
      { key: 'day', heading: 'From test to test, standard deviation', unit, align: 'right' },
      { key: 'variation', heading: 'The same, of the answer', unit: '%', align: 'right' },
      { key: 'change', heading: 'A change of more than', unit, align: 'right' },
      { key: 'source', heading: 'Published by' },
    ],
    rows: methods.map(({ id, name, intensity, sd }) => {
      const { variation, source } = repeatabilityOf(id, sport);
      return {
        method: name,
        sd: sd === null ? '–' : errorWords(sd),
        day: errorWords(variation * intensity),
        variation: (100 * variation).toFixed(1),
        change: bareIntensity(smallestDetectableChange(intensity, variation), display),
        source,
      };
    }),
    note: 'A change between two single tests that is smaller than the last figure may be chance (95 %).',
  });
}

/** Methods whose intervals hold less than they promise, and why. */
function cautionsList(result: SamplingResult): StackView | null {
  const lines = answered(result).flatMap(({ id, name }) => {
    const caution = coverageCaution(id);
    return caution === null ? [] : [`- *${name}:* ${caution}`];
  });
  if (lines.length === 0) return null;
  return folded(
    'Intervals that hold less than they promise',
    prose`
      In thousands of simulated tests with known answers the 95 % intervals of the other methods held between 93 and 97 % of
      them. Not so these:

      ${lines.join('\n')}`,
  );
}

/** Replicates of the cross-check. */
const DRAWS = 2000;

/** The draws checked from the other side: tests simulated around a curve. Told where the two differ by more than 20 %. */
export function showBootstrap(
  result: SamplingResult,
  readings: Readings,
  { display, ...given }: SamplerOptions & { display: Display },
): JobView {
  return job({
    label: 'The same by simulated tests around a curve',
    begin: 'asked',
    before: null,
    *steps() {
      for (const { share, result: found } of bootstrapInSteps(readings, { ...given, draws: DRAWS })) {
        const text = `${Math.round(share * DRAWS)} of ${DRAWS} tests`;
        yield { share, text, shown: () => found && bootstrapView(result, found, display) };
      }
    },
  });
}

function bootstrapView(
  result: SamplingResult,
  { curve, checks }: BootstrapResult,
  display: Display,
): StackView {
  const byMethod = new Map(answered(result).map((answer) => [answer.id, answer]));
  const found = checks.flatMap((check) => {
    const answer = byMethod.get(check.method);
    return answer && check.ratio !== null ? [{ check, answer }] : [];
  });
  const differing = found.filter(({ check }) => check.disagrees);
  const words =
    differing.length === 0
      ? `No standard deviation differs by more than 20 % from that of the draws, around the ${MODELS[curve].short}.`
      : `${differing.length} of ${found.length} standard deviations differ by more than 20 % from those of the draws, around the ${MODELS[curve].short}: where they do, believe neither alone.`;
  return stack(prose`${words}`, differing.length === 0 ? null : bootstrapTable(differing, display));
}

const bootstrapTable = (
  rows: readonly { check: BootstrapResult['checks'][number]; answer: Answered }[],
  display: Display,
): TableView =>
  table({
    caption: 'Where the two ways differ',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'draws', heading: 'Standard deviation by draws', unit: display.unit, align: 'right' },
      { key: 'tests', heading: 'By simulated tests', unit: display.unit, align: 'right' },
      { key: 'range', heading: '95 %, by draws', unit: display.unit, align: 'right' },
      { key: 'other', heading: '95 %, by simulated tests', unit: display.unit, align: 'right' },
      { key: 'shortest', heading: 'The shortest such', unit: display.unit, align: 'right' },
    ],
    rows: rows.map(({ check, answer: { name, sd, interval } }) => ({
      method: name,
      draws: sd === null ? '–' : errorWords(sd),
      tests: errorWords(check.sd!),
      range: interval === null ? '–' : bareRange(interval, display, { sd }),
      other: bootstrapRange(check.bca95 ?? check.percentile95, check.sd, display),
      shortest: bootstrapRange(check.shortest95, check.sd, display),
    })),
    note: 'Simulated tests scatter around the answer on the curve, which is not quite the answer on the readings. Intervals corrected for bias where that can be done (BCa); the shortest that holds 95 % of them is not.',
  });

function bootstrapRange(range: CoverageInterval | null, sd: number | null, display: Display): string {
  if (range === null) return '–';
  const end = (value: number) => {
    if (Number.isFinite(value)) return { value, beyond: null };
    return { value: null, beyond: value < 0 ? ('below' as const) : ('above' as const) };
  };
  return bareRange({ low: end(range.low), high: end(range.high) }, display, { sd });
}

import { type TruthRow, truthChart } from '../charts/truthChart.ts';
import { Random } from '../numerics/random.ts';
import type { ErrorModel } from '../physiology/errorModel.ts';
import {
  type ErrorOfMethod,
  errorAgainst,
  type MethodOnTruth,
  onKnownReadings,
  repeatsInSteps,
} from '../physiology/lesson/againstTruth.ts';
import { truthFor } from '../physiology/lesson/lessonAthletes.ts';
import { PUBLISHED_BIAS, publishedBias } from '../physiology/lesson/publishedBias.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Claim } from '../physiology/methods/method.ts';
import {
  folded,
  job,
  type ProseView,
  prose,
  type StackView,
  stack,
  type TableRow,
  type TableView,
  table,
} from '../view/view.ts';
import { percentWords } from './display.ts';
import { A_MODEL, exactly, type LessonTest, offWords, truthLines } from './lessonTest.ts';

/** One method with how far it is off. */
interface Judged extends MethodOnTruth {
  error: ErrorOfMethod;
}

interface RepeatSettings {
  error: ErrorModel;
  seed?: number;
  /** Tests that are made again with the errors of the meter, when the hand rests. */
  repeats?: number;
}

/** Repeats for the picture that comes at once, and of a step of those that follow. */
const AT_ONCE = 20;
const STEP = 20;

/**
 * Every method's answer against the truth it claims: bias without errors of the meter, scatter with them. A few repeats
 * make the picture at once, many sharpen it when the hand rests.
 */
export function showAgainstTruth(
  test: LessonTest,
  { error, repeats = 1000, seed = 1 }: RepeatSettings,
): StackView {
  const { readings } = test;
  const rough = onKnownReadings(readings, { error, repeats: AT_ONCE, random: new Random(seed) });
  return stack(
    job({
      label: 'More repeats with the meter',
      begin: 'at-rest',
      before: truthView(rough, test),
      live: true,
      *steps() {
        const options = { error, repeats, random: new Random(seed), step: STEP };
        for (const all of repeatsInSteps(readings, options)) {
          const done = all[0]!.repeats;
          yield {
            share: done / repeats,
            text: `${done} of ${repeats}`,
            shown: () => truthView(all, test),
          };
        }
      },
    }),
    silentNote(rough),
    publishedSources(),
  );
}

function truthView(all: readonly MethodOnTruth[], test: LessonTest): StackView {
  const { athlete, display } = test;
  const judged = all.map(
    (one): Judged => ({ ...one, error: errorAgainst(truthFor(one.method.claim, athlete), one) }),
  );
  return stack(
    truthChart({
      axis: display.axis,
      truths: truthLines(athlete, display),
      rows: judged.flatMap((one) => chartRow(one, truthFor(one.method.claim, athlete))),
      title: 'Bias and scatter, method by method',
      summary: summaryOf(judged),
    }),
    judgedTable(judged, test),
  );
}

function chartRow({ method, estimate, error }: Judged, truth: number): TruthRow[] {
  if (estimate.refused || error.bias === null) return [];
  const { scatter, range } = error;
  return [
    {
      name: method.name,
      claim: method.claim,
      value: `${offWords(error.bias)} %`,
      range: scatter === null ? '' : `± ${(100 * scatter).toFixed(1)}`,
      at: estimate.intensity,
      interval: range && [truth * (1 + range[0]), truth * (1 + range[1])],
    },
  ];
}

function summaryOf(judged: readonly Judged[]): string {
  const second = judged
    .filter(({ method, error }) => method.claim === 'LT2' && error.bias !== null)
    .toSorted((a, b) => a.error.bias! - b.error.bias!);
  const [low, high] = [second[0], second.at(-1)];
  const spread =
    low && high
      ? `Of the methods that claim the second threshold, ${low.method.name} lies lowest (${offWords(low.error.bias!)} %) and ${high.method.name} highest (${offWords(high.error.bias!)} %).`
      : 'No method that claims the second threshold answers.';
  return `${A_MODEL} ${spread} A dot is the answer without errors of the meter; a bar holds 95 % of repeated tests with them.`;
}

const TITLES: Record<Claim, string> = {
  LT1: 'Claim the first threshold',
  LT2: 'Claim the second threshold, held against the MLSS',
  MLSS: 'Claim the MLSS',
};

function judgedTable(judged: readonly Judged[], { display }: LessonTest): TableView {
  const rows = (['LT1', 'LT2', 'MLSS'] as const).flatMap((claim) => {
    const group = judged.filter(({ method }) => method.claim === claim);
    if (group.length === 0) return [];
    const heading = { method: TITLES[claim], bias: '', people: '', scatter: '', answer: '', without: '' };
    return [{ ...heading, tone: 'strong' as const }, ...group.map((one) => judgedRow(one, display))];
  });
  return table({
    caption: 'Simulated bias, and what is published',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'bias', heading: 'Bias', unit: '%', align: 'right' },
      { key: 'people', heading: 'In people, against the MLSS' },
      { key: 'scatter', heading: 'Scatter, one SD', unit: '%', align: 'right' },
      { key: 'answer', heading: 'Answer', unit: display.unit, align: 'right' },
      { key: 'without', heading: 'No answer', align: 'right' },
    ],
    rows,
    note: `${A_MODEL} Bias: answer without errors of the meter less the truth. Scatter and no answer: over ${judged[0]!.repeats} simulated repeats. –: none, or none known.`,
  });
}

function judgedRow({ method, estimate, error }: Judged, display: LessonTest['display']): TableRow {
  return {
    method: method.name,
    bias: error.bias === null ? '–' : offWords(error.bias),
    people: peopleWords(method.id),
    scatter: error.scatter === null ? '–' : (100 * error.scatter).toFixed(1),
    answer: estimate.refused ? 'no answer' : exactly(estimate.intensity, display),
    without: percentWords(error.without),
    tone: error.bias === null ? ('muted' as const) : null,
  };
}

/** What is published of a method's bias against the steady state, in a few words; a dash where nothing is known. */
export function peopleWords(method: string): string {
  const known = publishedBias(method).filter(({ wordsOnly }) => !wordsOnly);
  return known.length === 0 ? '–' : known.map(({ found, sport }) => `${found}, ${sport}`).join('; ');
}

/** Where the figures for people come from. */
const publishedSources = (): StackView => folded('Where the figures for people come from', publishedList());

function publishedList(): ProseView {
  const lines = PUBLISHED_BIAS.map(
    ({ method, found, sport, who, source }) =>
      `- *${methodById(method).name}:* ${found}, ${sport}: ${who}. ${source}.`,
  );
  return prose`${lines.join('\n')}

For methods that are not in this list we know of no figure.`;
}

/** Methods without an answer, and why, in one folded list. */
function silentNote(all: readonly MethodOnTruth[]): StackView | null {
  const silent = all.flatMap(({ method, estimate }) =>
    estimate.refused ? [`- *${method.name}:* ${estimate.refused.reason}`] : [],
  );
  if (silent.length === 0) return null;
  const title = `${silent.length} ${silent.length === 1 ? 'method gives' : 'methods give'} no answer here, and why`;
  return folded(title, prose`${silent.join('\n')}`);
}

import { type TruthRow, truthChart } from '../charts/truthChart.ts';
import type { ErrorModel } from '../physiology/errorModel.ts';
import {
  type ClassError,
  type ClassStep,
  drawnAthletes,
  testClass,
} from '../physiology/lesson/classOfAthletes.ts';
import { scaledTo } from '../physiology/lesson/lessonAthletes.ts';
import type { Claim } from '../physiology/methods/method.ts';
import {
  type JobView,
  job,
  type StackView,
  stack,
  type TableRow,
  type TableView,
  table,
} from '../view/view.ts';
import { A_MODEL, type LessonTest, offWords } from './lessonTest.ts';
import { peopleWords } from './lessonTruth.ts';

interface ClassSettings {
  athletes: number;
  seed: number;
  error: ErrorModel;
}

/** Athletes tested between two pictures: fewer tell too little. */
const LEAST_SHOWN = 5;

/**
 * A class of simulated athletes, each tested once by the protocol of the given test, fitted to what each can do; made
 * step by step by the page.
 */
export function showClass(
  { athlete, protocol }: LessonTest,
  { athletes, seed, error }: ClassSettings,
): JobView {
  const { type } = athlete;
  const sport = type.axis === 'power' ? 'cycling' : 'running';
  return job({
    label: `A class of ${athletes} simulated ${sport === 'cycling' ? 'cyclists' : 'runners'}, seed ${seed}`,
    begin: 'asked',
    before: null,
    *steps() {
      const steps = testClass(drawnAthletes(athletes, seed, sport), {
        protocolOf: (other) => scaledTo(other, protocol, type),
        error,
        seed,
      });
      for (const step of steps) {
        yield {
          share: step.done / athletes,
          text: `${step.done} of ${athletes} athletes tested`,
          shown: () => (step.done < Math.min(LEAST_SHOWN, athletes) ? null : classView(step)),
        };
      }
    },
  });
}

function classView(step: ClassStep): StackView {
  const errors = step.errors();
  return stack(
    truthChart({
      axis: 'percent',
      truths: (['LT1', 'LT2'] as const).map((claim) => ({ claim, at: 0, text: 'each athlete’s own truth' })),
      rows: errors.flatMap((error) => classRow(error, step)),
      title: `Every method over ${step.done} simulated athletes`,
      summary: summaryOf(errors.filter((error) => isTold(error, step))),
    }),
    classTable(errors, step),
  );
}

/** A mean over fewer than half of the class is of those whom the method suits. */
const isTold = (error: ClassError, { done }: ClassStep): boolean => error.answered >= done / 2;

function classRow(error: ClassError, step: ClassStep): TruthRow[] {
  if (!isTold(error, step)) return [];
  const { method, bias, spread } = error;
  const at = 100 * bias;
  return [
    {
      name: method.name,
      claim: method.claim,
      value: `${offWords(bias)} %`,
      range: `± ${(100 * spread).toFixed(1)}`,
      at,
      interval: [at - 200 * spread, at + 200 * spread],
    },
  ];
}

function summaryOf(errors: readonly ClassError[]): string {
  const second = errors.filter(({ method }) => method.claim === 'LT2');
  const nearest = second.toSorted((a, b) => Math.abs(a.bias) - Math.abs(b.bias))[0];
  const steadiest = second.toSorted((a, b) => a.spread - b.spread)[0];
  const found =
    nearest && steadiest
      ? `On average ${nearest.method.name} comes nearest to the MLSS (${offWords(nearest.bias)} %); ${steadiest.method.name} differs least from athlete to athlete (one SD ${(100 * steadiest.spread).toFixed(1)} %).`
      : '';
  return `${A_MODEL} ${found} A dot is the mean bias without errors of the meter; a bar reaches two standard deviations between athletes to either side.`;
}

const TITLES: Record<Claim, string> = {
  LT1: 'Against the first threshold',
  LT2: 'Against the MLSS',
  MLSS: 'Against the MLSS',
};

function classTable(errors: readonly ClassError[], step: ClassStep): TableView {
  const rows = (['LT1', 'LT2'] as const).flatMap((claim) => {
    const heading = { method: TITLES[claim], bias: '', people: '', meter: '', answered: '' };
    const group = errors.filter(({ method }) => method.claim === claim);
    return [{ ...heading, tone: 'strong' as const }, ...group.map((error) => tableRow(error, step))];
  });
  return table({
    caption: 'Bias over the class, mean ± SD between athletes',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'bias', heading: 'No meter errors', unit: '%', align: 'right' },
      { key: 'people', heading: 'In people, against the MLSS' },
      { key: 'meter', heading: 'One test with the meter', unit: '%', align: 'right' },
      { key: 'answered', heading: 'Answered', align: 'right' },
    ],
    rows,
    note: `${A_MODEL} What differs between athletes without errors of the meter is the method’s own: no better meter takes it away. Muted: fewer than half of the class get an answer.`,
  });
}

function tableRow(error: ClassError, step: ClassStep): TableRow {
  const { method, answered, bias, spread, answeredWithMeter, biasWithMeter, spreadWithMeter } = error;
  return {
    method: method.name,
    bias: answered > 1 ? meanWords(bias, spread) : '–',
    people: peopleWords(method.id),
    meter: answeredWithMeter > 1 ? meanWords(biasWithMeter, spreadWithMeter) : '–',
    answered: `${answered} of ${step.done}`,
    tone: isTold(error, step) ? null : ('muted' as const),
  };
}

const meanWords = (mean: number, sd: number): string => `${offWords(mean)} ± ${(100 * sd).toFixed(1)}`;

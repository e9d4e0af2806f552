import type { AdaptiveOptions } from '../physiology/adaptiveSampling.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { SamplerOptions } from '../physiology/samplingError.ts';
import type { Readings } from '../physiology/stepTest.ts';
import {
  type StreamedMethod,
  type StreamedResult,
  streamedSampling,
} from '../physiology/streamedSampling.ts';
import { folded, type JobView, job, type TableView, table } from '../view/view.ts';
import { bareIntensity, bareRange, type Display, errorWords } from './display.ts';

type Given = SamplerOptions & {
  display: Display;
  /** Digits of the standard deviation that are to settle: 1 to look at, 2 to report. */
  digits: 1 | 2;
  most?: number;
};

/** Draws of a slice, a few milliseconds, and of the blocks that are compared, by the digits wanted. */
const SLICE = 200;
const BLOCKS = { 1: 1000, 2: 10_000 } as const;
const SETTLED = { 1: 'one digit of each figure has', 2: 'two digits of each figure have' } as const;

/**
 * Draws until every figure has settled, as a computation that the page makes when the hand rests (one digit) or when
 * the reader asks for it (two), in memory that does not grow with the draws.
 */
export function showRefined(
  readings: Readings,
  { display, digits, most = digits === 1 ? 50_000 : 1_000_000, ...given }: Given,
): JobView {
  const adaptive: AdaptiveOptions = { block: BLOCKS[digits], slice: SLICE, digits, most };
  return job({
    label: `More draws, until ${SETTLED[digits]} settled`,
    begin: digits === 1 ? 'at-rest' : 'asked',
    before: null,
    *steps() {
      for (const step of streamedSampling(readings, given, adaptive)) {
        yield {
          share: step.share,
          text: progressWords(step),
          shown: () =>
            step.draws < BLOCKS[digits]
              ? null
              : folded('Figures after these draws', refinedTable(step, display)),
        };
      }
    },
  });
}

function progressWords({ draws, state, unsettled }: StreamedResult): string {
  const made = `${draws.toLocaleString('en')} draws`;
  if (state === 'settled') return `${made}, settled.`;
  if (state === 'limit') return `${made}, the most allowed; ${unsettled.length} figures are still rough.`;
  return `${made}, rough`;
}

const refinedTable = (step: StreamedResult, display: Display): TableView =>
  table({
    caption: 'Figures after more draws',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'mean', heading: 'Mean', unit: display.unit, align: 'right' },
      { key: 'sd', heading: 'Standard deviation', unit: display.unit, align: 'right' },
      { key: 'range', heading: '95 % interval', unit: display.unit, align: 'right' },
      { key: 'state', heading: '' },
    ],
    rows: step
      .methods()
      .filter(({ status }) => status !== 'not-shown')
      .map((one) => refinedRow(one, display)),
    note: 'Adaptive procedure of JCGM 101:2008, 7.9.4. Settled: twice the error of a figure is below half of its last digit.',
  });

function refinedRow({ method, mean, sd, interval95, settled }: StreamedMethod, display: Display) {
  const some = { sd };
  return {
    method: methodById(method).name,
    mean: mean === null ? '–' : bareIntensity(mean, display, some),
    sd: sd === null ? '–' : errorWords(sd),
    range: interval95 === null ? 'not determined' : bareRange(interval95, display, some),
    state: settled ? '' : 'rough',
    tone: settled ? null : ('muted' as const),
  };
}

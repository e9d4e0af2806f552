import { bandsChart } from '../charts/bandsChart.ts';
import type { Band, TrainingBands } from '../physiology/bands.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import { type ChartView, type NoticeView, notice, type TableView, table } from '../view/view.ts';
import { bareIntensity, type Display, intensityWords, rangeWords } from './display.ts';
import { type Answered, answerOf } from './methodRows.ts';

interface Chosen {
  lt1: string;
  lt2: string;
  display: Display;
}

/**
 * The bands as a strip under the two thresholds; hatched where the test cannot tell. Says why when there are none.
 * The numbers are in `bandTable`.
 */
export function showBands(
  bands: TrainingBands,
  result: SamplingResult,
  { lt1, lt2, display }: Chosen,
): ChartView | NoticeView {
  if (bands.refused !== null) return notice('caution', 'No bands from these two thresholds', bands.refused);
  const thresholds = [lt1, lt2].flatMap((id) => answerOf(result, id) ?? []);
  const undecided = bands.bands.filter((band) => band.undecided && !isEmptyBand(band));
  return bandsChart({
    axis: display.axis,
    lo: display.lo,
    hi: display.hi,
    bands: bands.bands.flatMap((band) => within(band, display)),
    thresholds: thresholds.map((answer) => ({
      claim: answer.claim,
      intensity: answer.intensity,
      label: labelOf(answer, display),
      density: answer.sampling.density,
    })),
    title: 'Training bands',
    summary: undecided.length === 0 ? NOTHING_HATCHED : hatchedWords(undecided, display),
  });
}

const NOTHING_HATCHED =
  'Nothing is hatched: no error set here moves the thresholds, which does not make them exact.';

function hatchedWords(undecided: readonly Band[], display: Display): string {
  const width = undecided.reduce((sum, band) => sum + band.to! - band.from!, 0);
  return (
    `Hatched: ${undecided.map((band) => limitsWords(band, display)).join(' and ')}, from where 10 % to where 90 % of ` +
    `the draws put the threshold below. That is ${share(width, display)} of the tested range.`
  );
}

/** Whether a band between two thresholds has no width: no error moves the threshold that it belongs to. */
export const isEmptyBand = ({ from, to, undecided }: Band): boolean => undecided && from! >= to!;

const share = (width: number, { lo, hi }: Display) => `${((100 * width) / (hi - lo)).toFixed(0)} %`;

/** The part of a band inside the tested range; nothing when it lies outside. */
function within(band: Band, { lo, hi }: Display) {
  const from = Math.max(lo, band.from ?? lo);
  const to = Math.min(hi, band.to ?? hi);
  return to > from ? [{ ...band, from, to }] : [];
}

const labelOf = ({ intensity, interval, digits }: Answered, display: Display): string =>
  interval === null
    ? intensityWords(intensity, display, digits)
    : `${intensityWords(intensity, display, digits)} (95 %: ${rangeWords(interval, display, digits)})`;

/** `up to 214 W`, `256–268 W`, `from 293 W`; of paces, `4:42 /km or slower`. */
export function limitsWords({ from, to }: Band, display: Display, unit: Display['second'] = null): string {
  const shown = { in: unit };
  const isPace = unit?.startsWith('min/') === true;
  if (from === null && to === null) return 'any';
  if (from === null) {
    const end = intensityWords(to!, display, shown);
    return isPace ? `${end} or slower` : `up to ${end}`;
  }
  if (to === null) {
    const end = intensityWords(from, display, shown);
    return isPace ? `${end} or faster` : `from ${end}`;
  }
  return `${bareIntensity(from, display, shown)}–${intensityWords(to, display, shown)}`;
}

function heartRateLimits({ heartRateFrom, heartRateTo, from, to }: Band): string {
  if (heartRateFrom !== null && heartRateTo !== null) {
    // Rounded inward, a narrow band may have no whole beat left.
    return heartRateFrom > heartRateTo ? '–' : `${heartRateFrom}–${heartRateTo} bpm`;
  }
  if (heartRateTo !== null && from === null) return `up to ${heartRateTo} bpm`;
  return heartRateFrom !== null && to === null ? `from ${heartRateFrom} bpm` : '–';
}

/** Bands in the athlete's units and in heart rate. */
export function bandTable(
  bands: readonly Band[],
  { display, caption = 'Training bands' }: { display: Display; caption?: string },
): TableView {
  const { second, unit } = display;
  return table({
    caption,
    columns: [
      { key: 'band', heading: 'Band' },
      { key: 'intensity', heading: unit === 'W' ? 'Power' : 'Speed' },
      ...(second === null ? [] : [{ key: 'second', heading: `In ${second}` }]),
      { key: 'heartRate', heading: 'Heart rate' },
    ],
    rows: bands
      .filter((band) => !isEmptyBand(band))
      .map((band) => ({
        band: band.name,
        intensity: limitsWords(band, display),
        second: second && limitsWords(band, display, second),
        heartRate: heartRateLimits(band),
        tone: band.undecided ? ('muted' as const) : null,
      })),
    note: 'Heart rate lags and drifts: it is the looser of the two, and no value is given where the test has none.',
  });
}

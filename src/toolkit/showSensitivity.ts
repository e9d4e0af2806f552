import { formatChange } from '../base/format.ts';
import { sensitivityChart } from '../charts/sensitivityChart.ts';
import type { MethodSampling, SamplingResult } from '../physiology/samplingTypes.ts';
import { SHIFT_GAIN, SHIFT_STEP } from '../physiology/shifts.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type StackView, stack, type TableView, table } from '../view/view.ts';
import { bareRange, type Display, errorWords, intensityWords, percentWords } from './display.ts';
import { type Answered, answered, chartRows, limits, refusalTable, unanswered } from './methodRows.ts';

/** How each method's answer spreads when the test's errors fall otherwise, with what moves it as its table. */
export function showSensitivity(
  result: SamplingResult,
  readings: Readings,
  { display }: { display: Display },
): StackView {
  // Plain refusals stand with the thresholds; here those that only the draws bring out.
  const lost = unanswered(result).filter((method) => method.lost);
  const picture = sensitivityChart({
    axis: display.axis,
    lo: display.lo,
    hi: display.hi,
    rows: chartRows(result, display),
    title: 'How far each figure can be trusted',
    summary: summaryOf(result, display),
    data: () => sensitivityTable(result, readings, { display }),
  });
  return stack(picture, refusalTable(lost));
}

/** Draws that are refused or lie beyond the tested range make what is left look steadier than it is. */
const isWhole = ({ status, interval95 }: MethodSampling) =>
  status === 'shown' && interval95?.low.value != null && interval95.high.value !== null;

function summaryOf(result: SamplingResult, display: Display): string {
  const spread = answered(result)
    .filter((a) => a.sd !== null && a.sampling.stages === null && isWhole(a.sampling))
    .toSorted((a, b) => a.sd! - b.sd!);
  const [steady, loose] = [spread[0], spread.at(-1)];
  const drawn = `${result.draws} draws, seed ${result.seed}.`;
  if (!steady || !loose || steady === loose) return drawn;
  const sd = (a: Answered) => `${errorWords(a.sd!)} ${display.unit}`;
  return (
    `Of the methods that nearly every draw answers, steadiest is ${steady.name} (standard deviation ${sd(steady)}), ` +
    `least steady ${loose.name} (${sd(loose)}). ` +
    `All ridges have the same height: the width tells. Steady is not the same as right. ${drawn}`
  );
}

/** Spread, refusals and shifts of every method that answers. */
export function sensitivityTable(
  result: SamplingResult,
  readings: Readings,
  { display }: { display: Display },
): TableView {
  const { unit } = display;
  return table({
    caption: 'What moves each figure',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'sd', heading: 'Standard deviation', unit, align: 'right' },
      { key: 'range', heading: '95 % interval', unit, align: 'right' },
      { key: 'refused', heading: 'Draws without answer', align: 'right' },
      { key: 'offset', heading: `All readings +${SHIFT_STEP} mmol/L`, unit, align: 'right' },
      { key: 'gain', heading: `All readings +${100 * SHIFT_GAIN} %`, unit, align: 'right' },
      { key: 'rests', heading: 'Rests on one reading' },
    ],
    rows: answered(result).map((a) => ({
      method: a.name,
      sd: a.sd === null ? '–' : errorWords(a.sd),
      range: a.interval === null ? 'not determined' : bareRange(a.interval, display, a.digits),
      refused: percentWords(a.sampling.refusedShare),
      offset: shiftWords(a.sampling.shifts.offset, display),
      gain: shiftWords(a.sampling.shifts.gain, display),
      rests: restsOn(a, readings, display),
      tone: a.interval === null ? ('muted' as const) : null,
    })),
    note:
      'The last column names the reading whose absence moves the figure by more than half the 95 % interval is wide ' +
      'to one side, or by more than 3 %. Leaving out the first or last stage also changes the test itself.',
  });
}

const shiftWords = (shift: number | null, { axis }: Display): string =>
  shift === null ? 'no answer' : formatChange(shift, axis === 'power' ? 1 : 2);

/** Largest share of the figure that may hang on one reading before it is named (our rule). */
const LARGE_SHARE = 0.03;

/** The reading that matters most when it is left out; an empty text when none matters much. */
export function restsOn(answer: Answered, readings: Readings, display: Display): string {
  const { leaveOut } = answer.sampling.shifts;
  const least = Math.min(halfWidth(answer.sampling) / 2, LARGE_SHARE * answer.intensity);
  let most = -1;
  leaveOut.forEach((shift, i) => {
    if (shift !== null && Math.abs(shift) > Math.abs(leaveOut[most] ?? 0)) most = i;
  });
  if (most < 0 || Math.abs(leaveOut[most]!) <= least) return '';
  return `${intensityWords(readings.x[most]!, display)} (${shiftWords(leaveOut[most]!, display)})`;
}

function halfWidth({ interval95 }: MethodSampling): number {
  const ends = limits(interval95);
  return ends === null ? Number.POSITIVE_INFINITY : (ends[1] - ends[0]) / 2;
}

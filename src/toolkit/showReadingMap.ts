import { formatChange } from '../base/format.ts';
import { methodMap } from '../charts/methodMap.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import { SHIFT_STEP } from '../physiology/shifts.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type ChartView, folded, prose, type StackView, stack } from '../view/view.ts';
import { bareIntensity, type Display, intensityWords } from './display.ts';
import { type Answered, answered } from './methodRows.ts';
import { restsOn } from './showSensitivity.ts';

/** How far a method's answer moves with each reading alone: by 0.1 mmol/L, or out of the test. */
type ReadingChange = 'perReading' | 'leaveOut';

const TITLES = {
  perReading: `If one reading were ${SHIFT_STEP} mmol/L higher`,
  leaveOut: 'If one reading were left out',
} as const;

/** Which reading moves which method: all readings against all methods, and what an answer rests on in words. */
export function showReadingMap(
  result: SamplingResult,
  readings: Readings,
  { display }: { display: Display },
): StackView {
  return stack(
    readingMap(result, readings, { display, change: 'perReading' }),
    prose`${restsWords(result, readings, display)}`,
    folded(TITLES.leaveOut, readingMap(result, readings, { display, change: 'leaveOut' })),
  );
}

/** Shift of every method's answer when one reading changes; the shading is full at half the widest interval. */
export function readingMap(
  result: SamplingResult,
  readings: Readings,
  { display, change }: { display: Display; change: ReadingChange },
): ChartView {
  const methods = answered(result);
  const shifts = methods.flatMap(({ sampling }) =>
    sampling.shifts[change].map((shift) => Math.abs(shift ?? 0)),
  );
  const largest = Math.max(...shifts, Number.MIN_VALUE);
  return methodMap({
    columns: Array.from(readings.x, (x) => bareIntensity(x, display)),
    columnTitle: `Reading at, ${display.unit}`,
    rows: methods.map(({ name, claim, sampling }) => ({
      name,
      claim,
      fields: sampling.shifts[change].map((shift) =>
        shift === null
          ? { shade: 0, text: '×' }
          : { shade: shift / largest, text: shiftText(shift, display) },
      ),
    })),
    title: TITLES[change],
    summary: summaryOf(methods, readings, { display, change }),
  });
}

/** Whole units where a shift is large, so that a field holds it; a dot where there is none. */
function shiftText(shift: number, { axis }: Display): string {
  const decimals = axis === 'power' ? (Math.abs(shift) < 9.95 ? 1 : 0) : 2;
  return Number(shift.toFixed(decimals)) === 0 ? '·' : formatChange(shift, decimals);
}

function summaryOf(
  methods: readonly Answered[],
  readings: Readings,
  { display, change }: { display: Display; change: ReadingChange },
): string {
  const all = methods.flatMap(({ name, sampling }) =>
    sampling.shifts[change].map((shift, i) => ({ name, shift: shift ?? 0, i })),
  );
  const key = `Shift of each answer in ${display.unit}; a dot stands for no shift, × for no answer then.`;
  const most = all.toSorted((a, b) => Math.abs(b.shift) - Math.abs(a.shift))[0];
  if (!most || most.shift === 0) return key;
  const at = intensityWords(readings.x[most.i]!, display);
  return `${key} The largest is that of ${most.name} with the reading at ${at}: ${shiftText(most.shift, display)} ${display.unit}.`;
}

/** The methods by the one reading that each rests on, as a list. */
function restsWords(result: SamplingResult, readings: Readings, display: Display): string {
  const byReading = new Map<string, string[]>();
  for (const answer of answered(result)) {
    const rests = restsOn(answer, readings, display);
    if (rests === '') continue;
    const [at] = rests.split(' (');
    byReading.set(at!, [...(byReading.get(at!) ?? []), `*${answer.name}*`]);
  }
  if (byReading.size === 0) return 'No answer rests on a single reading.';
  const lines = [...byReading].map(
    ([at, names]) => `- On the reading at **${at}** rest ${names.join(', ')}.`,
  );
  return `Left out, that one reading would move the answer by much of its interval:\n\n${lines.join('\n')}`;
}

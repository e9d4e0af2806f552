import { formatChange } from '../base/format.ts';
import { curveChart } from '../charts/curveChart.ts';
import type { Curve } from '../physiology/curves/curve.ts';
import { type FittedCurve, MODELS } from '../physiology/curves/index.ts';
import type { ErrorModel } from '../physiology/errorModel.ts';
import { displayedSd } from '../physiology/readingDraws.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type ChartView, type Handle, type NoticeView, notice, table } from '../view/view.ts';
import { type Display, intensityWords, lactateWords } from './display.ts';

const SAMPLES = 140;

/** A curve as the points to draw, over its tested range. */
export function curvePoints(curve: Curve): { name: string; x: number[]; y: number[] } {
  const x = Array.from({ length: SAMPLES }, (_, i) => curve.lo + ((curve.hi - curve.lo) * i) / (SAMPLES - 1));
  return { name: MODELS[curve.model].name, x, y: x.map((at) => curve.at(at)) };
}

/** Standard deviation of each reading by its meter, mmol/L; a mean of several is steadier. */
export const readingSd = ({ y, count }: Readings, error: ErrorModel): number[] =>
  Array.from(y, (lactate, i) => displayedSd(lactate, error) / Math.sqrt(count[i]!));

/** The readings, what the meter may be off by, and one or more fitted curves; the first is the chosen one. */
export function showCurve(
  readings: Readings,
  curves: readonly FittedCurve[],
  { display, error, handles }: { display: Display; error: ErrorModel; handles?: readonly (Handle | null)[] },
): ChartView | NoticeView {
  const [chosen, ...others] = curves.filter((curve) => curve.status === 'ok');
  if (!chosen) return noCurve(curves[0]);
  const sd = readingSd(readings, error);
  const { x, y } = readings;
  return curveChart({
    axis: display.axis,
    x,
    y,
    readingSd: sd,
    curves: [chosen, ...others].map(curvePoints),
    title: `Readings and curve: ${MODELS[chosen.model].name}`,
    summary:
      `Lactate goes from ${lactateWords(y[0]!, 1)} at ${intensityWords(x[0]!, display)} to ` +
      `${lactateWords(y.at(-1)!, 1)} at ${intensityWords(x.at(-1)!, display)}; bars are one standard deviation of ` +
      `the meter either way. ${missWords(chosen, sd, display)}`,
    data: residualTable(chosen, display, sd),
    ...(handles && { handles }),
  });
}

/** Where the curve misses most, and how many readings by more than the meter explains. */
function missWords({ x, residuals }: FittedCurve, sd: readonly number[], display: Display): string {
  const sizes = Array.from(residuals, Math.abs);
  const largest = sizes.indexOf(Math.max(...sizes));
  if (sizes[largest]! < 0.005) return 'The curve passes through every reading.';
  const outside = sizes.filter((size, i) => size > 2 * sd[i]!).length;
  return (
    `The curve is furthest from the reading at ${intensityWords(x[largest]!, display)} ` +
    `(${formatChange(residuals[largest]!, 2)} mmol/L); ${countOf(outside, x.length)} more than two away.`
  );
}

function countOf(count: number, of: number): string {
  if (count === 0) return 'no reading lies';
  return `${count} of ${of} readings ${count === 1 ? 'lies' : 'lie'}`;
}

const noCurve = (curve: FittedCurve | undefined): NoticeView =>
  notice(
    'problem',
    'This curve cannot be drawn through these readings',
    curve?.status === 'not-convex'
      ? 'It would bend the wrong way: lactate does not rise ever more steeply in this test. Choose another curve.'
      : 'The readings do not fix it: too few, or no rise. Choose a simpler curve, or look at the readings again.',
  );

function residualTable(curve: FittedCurve, display: Display, sd: readonly number[]) {
  return table({
    caption: `Readings and ${MODELS[curve.model].name}`,
    columns: [
      { key: 'at', heading: 'Intensity' },
      { key: 'reading', heading: 'Reading', unit: 'mmol/L', align: 'right' },
      { key: 'curve', heading: 'Curve', unit: 'mmol/L', align: 'right' },
      { key: 'rest', heading: 'Reading less curve', unit: 'mmol/L', align: 'right' },
      { key: 'sd', heading: 'Meter, one SD', unit: 'mmol/L', align: 'right' },
    ],
    rows: Array.from(curve.x, (x, i) => ({
      at: intensityWords(x, display),
      reading: curve.y[i]!.toFixed(1),
      curve: curve.at(x).toFixed(2),
      rest: formatChange(curve.residuals[i]!, 2),
      sd: sd[i]!.toFixed(2),
      tone: Math.abs(curve.residuals[i]!) > 2 * sd[i]! ? ('strong' as const) : null,
    })),
    note: 'Strong: the curve misses the reading by more than two standard deviations of the meter.',
  });
}

import { formatNumber } from '../base/format.ts';
import { betweenNeighbours, heartRateAt, heartRatesOf } from './heartRate.ts';
import { isotonic } from './isotonic.ts';
import { completedStages, stageMeans } from './stageMeans.ts';
import type { StepTest } from './stepTest.ts';
import { straightLine } from './straightLine.ts';

/** What else was measured, read at one intensity. Null marks what this test cannot tell; nothing is extrapolated. */
export interface ValuesAt {
  /** bpm, by straight lines between the completed stages. */
  heartRate: number | null;
  /** bpm, on one straight line through the completed stages of moderate effort. */
  heartRateOnLine: number | null;
  /** Share of the highest heart rate, as a fraction. */
  heartRateShare: number | null;
  /** Perceived exertion on the scale of the table, to half a point. */
  rpe: number | null;
  /** In the unit of the table. */
  oxygenUptake: number | null;
  wattsPerKg: number | null;
  warnings: string[];
}

interface ValuesOptions {
  /** Second threshold on the same axis: above it oxygen uptake keeps rising within a stage. */
  lt2?: number | null;
  /** bpm; the highest of the test when left out. */
  heartRateMax?: number | null;
}

/** Limits of the heart-rate line as shares of the highest rate, and what makes the line doubtful, bpm. */
const LINE = { from: 0.5, to: 0.95, mostResidual: 3, mostDifference: 4 };

/**
 * Heart rate, perceived exertion and oxygen uptake at an intensity, W or km/h.
 *
 * Model     heart rate: between the completed stages on either side, and on a least-squares line through those between
 *           50 and 95 % of the highest rate; exertion: between stages after pooling those that fall; oxygen uptake:
 *           a least-squares line through the completed stages up to the second threshold
 * Missing   stages without the measurement, or not finished, are left out
 * Source    common practice; the limits of the line, 3 and 4 bpm are our rule
 */
export function valuesAt(test: StepTest, intensity: number, options: ValuesOptions = {}): ValuesAt {
  const rates = heartRatesOf(test);
  const highest = options.heartRateMax ?? highestRate(test);
  const heartRate = heartRateAt(rates, intensity);
  const line = rateOnLine(rates, highest, intensity);
  const oxygen = oxygenUptakeAt(test, intensity, options.lt2 ?? null);
  return {
    heartRate,
    heartRateOnLine: line.value,
    heartRateShare: heartRate !== null && highest !== null ? heartRate / highest : null,
    rpe: exertionAt(test, intensity),
    oxygenUptake: oxygen.value,
    wattsPerKg: test.axis === 'power' && test.bodyMass !== null ? intensity / test.bodyMass : null,
    warnings: [...line.warnings, ...differenceWarning(heartRate, line.value), ...oxygen.warnings],
  };
}

function highestRate({ stages }: StepTest): number | null {
  const measured = stages.flatMap((s) => (s.heartRate === null ? [] : [s.heartRate]));
  return measured.length > 0 ? Math.max(...measured) : null;
}

interface Read {
  value: number | null;
  warnings: string[];
}

const NOTHING: Read = { value: null, warnings: [] };

function rateOnLine({ x, bpm }: { x: number[]; bpm: number[] }, highest: number | null, at: number): Read {
  if (highest === null || x.length === 0 || at < x[0]! || at > x.at(-1)!) return NOTHING;
  const kept = bpm.flatMap((rate, i) => (rate > LINE.from * highest && rate < LINE.to * highest ? [i] : []));
  const line = straightLine(
    kept.map((i) => x[i]!),
    kept.map((i) => bpm[i]!),
  );
  if (kept.length < 3 || !line) return NOTHING;
  const bent = line.residualSd > LINE.mostResidual;
  return {
    value: line.at(at),
    warnings: bent
      ? [
          `Heart rate is not straight over intensity: it scatters by ${formatNumber(line.residualSd, 1)} bpm around a line.`,
        ]
      : [],
  };
}

function differenceWarning(between: number | null, line: number | null): string[] {
  if (between === null || line === null || Math.abs(between - line) <= LINE.mostDifference) return [];
  return [
    `Heart rate between the neighbouring stages (${formatNumber(between, 0)} bpm) and on a line through all (${formatNumber(line, 0)} bpm) differ by more than ${LINE.mostDifference} bpm.`,
  ];
}

function exertionAt(test: StepTest, intensity: number): number | null {
  const { x, y } = stageMeans(completedStages(test), (stage) => stage.rpe);
  const value = betweenNeighbours(x, isotonic(y), intensity);
  return value === null ? null : Math.round(2 * value) / 2;
}

function oxygenUptakeAt(test: StepTest, intensity: number, lt2: number | null): Read {
  const stages = completedStages(test).filter((stage) => lt2 === null || stage.intensity <= lt2);
  const { x, y } = stageMeans(stages, (stage) => stage.oxygenUptake ?? null);
  const all = stageMeans(completedStages(test), (stage) => stage.oxygenUptake ?? null).x;
  const line = straightLine(x, y);
  if (!line || x.length < 3 || intensity < x[0]! || intensity > all.at(-1)!) return NOTHING;
  const above = lt2 !== null && intensity > lt2;
  return {
    value: line.at(intensity),
    warnings: above
      ? [
          'Above the second threshold oxygen uptake keeps rising within a stage: the line from below it reads too low.',
        ]
      : [],
  };
}

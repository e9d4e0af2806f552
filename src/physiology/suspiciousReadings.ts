import { prepareCurve } from './curves/index.ts';
import type { Readings } from './stepTest.ts';

interface SuspiciousReading {
  /** Index into the readings. */
  index: number;
  /** What the other readings lead one to expect, mmol/L. */
  expected: number;
}

/** Repeatability of a handheld meter, mmol/L (Mentzoni 2024, Eur J Appl Physiol, abstract: 0.15–0.22). */
const METER_SD = 0.18;
/** Two readings of one blood differ by less than this 19 times in 20, mmol/L: 2·√2 standard deviations. */
export const REPEATABLE = 2 * Math.SQRT2 * METER_SD;
/** Standard deviations from the expected value that make a reading stand out. */
const LIMIT = 3;
/** Fewest other readings that an expectation is worth anything from: one more than the curve has parameters. */
const FEWEST_OTHERS = 5;

/**
 * Readings, other than the first and the last, that stand out from the others.
 *
 * Model     an exponential curve is fitted without the reading; it stands out when it lies more than 3 standard
 *           deviations from that curve, those of the fit or of a handheld meter, whichever is larger; or when it
 *           rises above both neighbours by more than that meter repeats (a jump, then a fall)
 * Source    studentised deleted residuals, common practice; the floor and the jump are our rule
 */
export function suspiciousReadings(readings: Readings): SuspiciousReading[] {
  const found: SuspiciousReading[] = [];
  for (let index = 1; index < readings.x.length - 1; index++) {
    const expected = expectedByCurve(readings, index) ?? expectedByJump(readings, index);
    if (expected !== null) found.push({ index, expected });
  }
  return found;
}

/** The curve's value without this reading, when the reading lies far from it; else null. */
function expectedByCurve({ x, y, count }: Readings, index: number): number | null {
  const others = (_: number, i: number) => i !== index;
  const [otherX, otherY] = [x.filter(others), y.filter(others)];
  if (otherX.length < FEWEST_OTHERS) return null;
  const curve = prepareCurve('exponential', otherX, count.filter(others));
  if (curve.fit(otherY) !== 'ok') return null;
  const squares = otherY.reduce((sum, value, i) => sum + (value - curve.at(otherX[i]!)) ** 2, 0);
  const sd = Math.max(METER_SD, Math.sqrt(squares / (otherX.length - curve.parameters)));
  const expected = curve.at(x[index]!);
  return Math.abs(y[index]! - expected) > LIMIT * sd ? expected : null;
}

/** The line between the neighbours, when the reading juts out above both; else null. */
function expectedByJump({ x, y }: Readings, index: number): number | null {
  const [before, after] = [y[index - 1]!, y[index + 1]!];
  if (y[index]! - Math.max(before, after) <= REPEATABLE) return null;
  return before + ((after - before) * (x[index]! - x[index - 1]!)) / (x[index + 1]! - x[index - 1]!);
}

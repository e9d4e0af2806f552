import { describe, expect, test } from 'vitest';
import {
  DENSITY_POINTS,
  DENSITY_RANKS,
  DENSITY_ROOM,
  DENSITY_START,
  DENSITY_STEP,
  writeDensity,
} from '../../src/numerics/density.ts';
import { RANK_BINS } from '../../src/numerics/selection.ts';
import { densityOf } from '../../src/physiology/kernel/compiledSummary.ts';
import reference from '../references/r/density.json' with { type: 'json' };

interface Curve {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
}

/** The density that the sources make, uncompiled. */
function plain(values: readonly number[], sd: number): Curve | null {
  const out = new Float64Array(DENSITY_ROOM);
  const ranks = new Int32Array(DENSITY_RANKS);
  const bins = new Int32Array(RANK_BINS);
  if (!writeDensity(Float64Array.from(values), values.length, sd, ranks, bins, out)) return null;
  const [start, step] = [out[DENSITY_START]!, out[DENSITY_STEP]!];
  return {
    x: Array.from({ length: DENSITY_POINTS }, (_, i) => start + i * step),
    y: Array.from({ length: DENSITY_POINTS }, (_, i) => out[i]! / (values.length * step)),
  };
}

function at({ x, y }: Curve, where: number): number {
  const place = (where - x[0]!) / (x[1]! - x[0]!);
  const left = Math.floor(place);
  return y[left]! + (place - left) * (y[left + 1]! - y[left]!);
}

describe.each(reference.cases)('the density of a sample ($name)', ({ values, sd, at: places, density }) => {
  test('is that of R (bw.nrd0, sums without bins) but for the bins', () => {
    const curve = plain(values, sd)!;
    const peak = Math.max(...density);
    for (const [i, place] of places.entries()) {
      expect(Math.abs(at(curve, place) - density[i]!), `at ${place}`).toBeLessThan(0.01 * peak);
    }
  });

  test('holds all draws but the outermost', () => {
    const { x, y } = plain(values, sd)!;
    const whole = Array.from(y).reduce((sum, each) => sum + each) * (x[1]! - x[0]!);
    expect(whole).toBeGreaterThan(0.99);
    expect(whole).toBeLessThan(1.0001);
  });

  test('is the same compiled, scaled to its share', () => {
    const answers = Float64Array.from(values);
    const [curve, compiled] = [plain(values, sd)!, densityOf(answers, sd, 0.5)!];
    for (let i = 0; i < DENSITY_POINTS; i++) {
      expect(compiled.x[i]).toBeCloseTo(curve.x[i]!, 9);
      expect(compiled.y[i]).toBeCloseTo(curve.y[i]! / 2, 12);
    }
    expect([...answers], 'the draws themselves stay in their order').toEqual(values);
  });
});

test('values that do not spread have no density', () => {
  expect(plain(Array(50).fill(250), 0)).toBe(null);
  expect(densityOf(new Float64Array(50).fill(250), 0, 1)).toBe(null);
});

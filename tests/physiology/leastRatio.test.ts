import { expect, test } from 'vitest';
import { ExponentialCurve } from '../../src/physiology/curves/exponentialCurve.ts';
import { LeastRatio } from '../../src/physiology/leastRatio.ts';
import reference from '../references/scipy/lambert.json' with { type: 'json' };

const STAGES = 8;

test.each(reference.cases)(
  'lactate over intensity is least where Lambert’s function of scipy says (a $a, b $b, from $lo)',
  ({ lo, hi, a, b, growth, least }) => {
    const x = Float64Array.from({ length: STAGES }, (_, i) => lo + (i * (hi - lo)) / (STAGES - 1));
    const curve = new ExponentialCurve(x, new Float64Array(STAGES).fill(1));
    curve.fit(x.map((at) => a + b * Math.exp((growth * (at - lo)) / (hi - lo))));
    expect(curve.constant).toBeCloseTo(a, 6);
    // The curve is fitted to some ten digits.
    expect(new LeastRatio(STAGES).of(curve) / least).toBeCloseTo(1, 8);
  },
);

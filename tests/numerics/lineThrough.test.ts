import { describe, expect, test } from 'vitest';
import { leastSquares } from '../../src/numerics/leastSquares.ts';
import { lineThrough } from '../../src/numerics/lineThrough.ts';
import { Random } from '../../src/numerics/random.ts';
import { expectDigits } from '../digits.ts';
import { sets } from '../references/nist/linear.json' with { type: 'json' };

describe('a straight line through points', () => {
  test('is the certified one of Norris (NIST Statistical Reference Datasets)', () => {
    const { x, y, certified } = sets.Norris;
    const { intercept, slope, sse } = lineThrough(x as number[], y);
    expectDigits([intercept, slope], certified.b, { atLeast: 10 });
    expectDigits(Math.sqrt(sse / (y.length - 2)), certified.rsd, { atLeast: 10 });
  });

  test('is that of the general fit, with weights and without', () => {
    const random = new Random(4);
    for (let n = 3; n < 30; n++) {
      const x = Array.from({ length: n }, () => random.normal());
      const y = x.map((value) => 3 - 2 * value + random.normal());
      const weights = x.map(() => 0.1 + random.uniform());
      for (const options of [{}, { weights }]) {
        const line = lineThrough(x, y, options.weights);
        const { coefficients, sse } = leastSquares([x.map(() => 1), x], y, options);
        expectDigits([line.intercept, line.slope, line.sse], [...coefficients, sse], { atLeast: 10 });
      }
    }
  });

  test('has no slope where all points stand above each other', () => {
    expect(lineThrough([2, 2, 2], [1, 2, 3]).slope).toBeNaN();
  });
});

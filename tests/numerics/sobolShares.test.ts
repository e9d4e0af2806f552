import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { sobolShares } from '../../src/numerics/sobolShares.ts';
import { expectDigits } from '../digits.ts';
import reference from '../references/scipy/sobol.json' with { type: 'json' };

type Model = (x: readonly number[]) => number;

const MODELS: Record<keyof typeof reference.closedForm, Model> = {
  ishigami: ([x1, x2, x3]) => Math.sin(x1!) + 7 * Math.sin(x2!) ** 2 + 0.1 * x3! ** 4 * Math.sin(x1!),
  straight: ([x1, x2, x3]) => x1! + 2 * x2! + 3 * x3!,
};
const names = Object.keys(MODELS) as (keyof typeof MODELS)[];

/** Values of a model of three inputs uniform on (−π, π). */
function valuesOf(model: Model, rows: number, seed: number) {
  const random = new Random(seed);
  const row = () => Array.from({ length: 3 }, () => Math.PI * (2 * random.uniform() - 1));
  const [a, b] = [0, 1].map(() => Array.from({ length: rows }, row)) as [number[][], number[][]];
  const with1 = (i: number) => a.map((x, d) => x.map((value, k) => (k === i ? b[d]![k]! : value)));
  const values = (sample: number[][]) => Float64Array.from(sample, model);
  return { a: values(a), b: values(b), mixed: [0, 1, 2].map((i) => values(with1(i))) };
}

describe.each(names)('%s', (name) => {
  test('the same values as scipy gives the same shares', () => {
    const { a, b, mixed, first, total } = reference.cases[name];
    const found = sobolShares({
      a: Float64Array.from(a),
      b: Float64Array.from(b),
      mixed: mixed.map((values) => Float64Array.from(values)),
    });
    const { digits } = reference.provenance;
    expectDigits(found.first, first, { atLeast: digits, what: 'first' });
    expectDigits(found.total, total, { atLeast: digits, what: 'total' });
  });

  test('random values give the shares known in closed form, within four of their own standard errors', () => {
    const { first, total } = reference.closedForm[name];
    const found = sobolShares(valuesOf(MODELS[name], 20_000, 5));
    for (let i = 0; i < 3; i++) {
      expect(Math.abs(found.first[i]! - first[i]!)).toBeLessThan(4 * found.firstError[i]! + 1e-12);
      expect(Math.abs(found.total[i]! - total[i]!)).toBeLessThan(4 * found.totalError[i]! + 1e-12);
      expect(found.firstError[i]!).toBeLessThan(0.03);
    }
  });
});

test('rows with a missing value are left out of every sample', () => {
  const whole = valuesOf(MODELS.straight, 200, 1);
  const holed = valuesOf(MODELS.straight, 202, 1);
  const put = (to: Float64Array, from: Float64Array) => to.set(from);
  put(holed.a, whole.a);
  put(holed.b, whole.b);
  holed.mixed.forEach((values, i) => {
    put(values, whole.mixed[i]!);
  });
  holed.b[200] = Number.NaN;
  holed.mixed[1]![201] = Number.POSITIVE_INFINITY;
  expect(sobolShares(holed)).toEqual(sobolShares(whole));
  expect(sobolShares(holed).rows).toBe(200);
});

test('an output that does not vary has no shares', () => {
  const still = new Float64Array(20).fill(3);
  expect(sobolShares({ a: still, b: still, mixed: [still] })).toMatchObject({ first: [0], total: [0] });
});

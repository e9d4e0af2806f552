import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { type SeparableModel, separableFit } from '../../src/numerics/separableFit.ts';
import { expectDigits } from '../digits.ts';
import nist from '../references/nist/nonlinear.json' with { type: 'json' };

type Name = keyof typeof nist.sets;
interface Problem {
  /** Which certified parameters are linear, and which shape the curve. */
  linear: number[];
  shape: number[];
  model: (x: Float64Array) => SeparableModel;
}

/** One column e^(−s·x) for each shape parameter, after a constant if asked for. */
const decays =
  (constant: boolean) =>
  (x: Float64Array): SeparableModel => ({
    basis: (shape) => [
      ...(constant ? [x.map(() => 1)] : []),
      ...Array.from(shape, (s) => x.map((v) => Math.exp(-s * v))),
    ],
    derivatives: (shape) =>
      Array.from(shape, (_, k) => [
        ...(constant ? [x.map(() => 0)] : []),
        ...Array.from(shape, (s, j) => x.map((v) => (j === k ? -v * Math.exp(-s * v) : 0))),
      ]),
  });

const saturation = (x: Float64Array): SeparableModel => ({
  basis: ([s]) => [x.map((v) => -Math.expm1(-s! * v))],
  derivatives: ([s]) => [[x.map((v) => v * Math.exp(-s! * v))]],
});

// NIST names its parameters b1, b2 …; here by position from 0.
const PROBLEMS: Partial<Record<Name, Problem>> = {
  // y = b1(1 − e^(−b2·x))
  Misra1a: { linear: [0], shape: [1], model: saturation },
  BoxBOD: { linear: [0], shape: [1], model: saturation },
  // y = b1(1 − (1 + b2·x/2)^−2)
  Misra1b: {
    linear: [0],
    shape: [1],
    model: (x) => ({
      basis: ([s]) => [x.map((v) => 1 - (1 + (s! * v) / 2) ** -2)],
      derivatives: ([s]) => [[x.map((v) => v * (1 + (s! * v) / 2) ** -3)]],
    }),
  },
  // y = b1·x^b2
  DanWood: {
    linear: [0],
    shape: [1],
    model: (x) => ({
      basis: ([s]) => [x.map((v) => v ** s!)],
      derivatives: ([s]) => [[x.map((v) => Math.log(v) * v ** s!)]],
    }),
  },
  // y = (b1/b2)·e^(−½((x − b3)/b2)²)
  Eckerle4: {
    linear: [0],
    shape: [1, 2],
    model: (x) => {
      const bell = (width: number, place: number, v: number) =>
        Math.exp(-0.5 * ((v - place) / width) ** 2) / width;
      return {
        basis: ([width, place]) => [x.map((v) => bell(width!, place!, v))],
        derivatives: ([width, place]) => [
          [x.map((v) => (bell(width!, place!, v) * (((v - place!) / width!) ** 2 - 1)) / width!)],
          [x.map((v) => (bell(width!, place!, v) * (v - place!)) / width! ** 2)],
        ],
      };
    },
  },
  // y = b1·e^(−b2·x) + b3·e^(−b4·x) + b5·e^(−b6·x)
  Lanczos3: { linear: [0, 2, 4], shape: [1, 3, 5], model: decays(false) },
  // y = b1 + b2·e^(−b4·x) + b3·e^(−b5·x)
  MGH17: { linear: [0, 1, 2], shape: [3, 4], model: decays(true) },
};

// The certified values have 11 digits, so 10 is as much as can be asked.
const atLeast = 10;

describe('separable least squares on NIST StRD sets', () => {
  const cases = Object.keys(nist.sets).flatMap((name) => [
    [name, 'start1'] as const,
    [name, 'start2'] as const,
  ]);

  test.each(cases)('%s from %s', (name, from) => {
    const { x, y, certified, ...starts } = nist.sets[name as Name];
    const { linear, shape, model } = PROBLEMS[name as Name]!;
    const start = shape.map((k) => starts[from][k]!);
    const fit = separableFit(model(Float64Array.from(x)), y, start);
    expect(fit.status).toBe('ok');
    const order = [...linear, ...shape];
    const values = arrange(name, [...fit.linear, ...fit.shape], linear.length, shape.length);
    const errors = arrange(name, [...fit.linear, ...fit.shape], linear.length, shape.length, [
      ...fit.standardErrors,
    ]);
    const b = expectDigits(
      values,
      order.map((k) => certified.b[k]!),
      { atLeast, what: 'b' },
    );
    const se = expectDigits(
      errors,
      order.map((k) => certified.se[k]!),
      { atLeast, what: 'se' },
    );
    const sse = expectDigits(fit.sse, certified.rss, { atLeast, what: 'sse' });
    if (process.env.SHOW_DIGITS)
      console.log(
        name,
        from,
        [b, se, sse].map((d) => d.toFixed(1)),
      );
  });
});

/**
 * Bring an equivalent solution into NIST's form: sums of decays in ascending order of decay; Eckerle4 with a positive
 * width, since changing the sign of both b1 and b2 changes nothing.
 */
function arrange(name: string, values: number[], linear: number, shape: number, out = values): number[] {
  if (name === 'Eckerle4' && values[1]! < 0) return out === values ? [-out[0]!, -out[1]!, out[2]!] : out;
  if (name !== 'Lanczos3' && name !== 'MGH17') return out;
  const terms = Array.from({ length: shape }, (_, k) => k).sort(
    (a, b) => values[linear + a]! - values[linear + b]!,
  );
  const before = linear - shape;
  return [
    ...out.slice(0, before),
    ...terms.map((k) => out[before + k]!),
    ...terms.map((k) => out[linear + k]!),
  ];
}

describe('separable least squares', () => {
  const x = Float64Array.from({ length: 9 }, (_, i) => i / 2);

  test('finds the parameters of exact data again', () => {
    for (const rate of [0.05, 0.7, 3]) {
      const y = x.map((v) => 2 + 5 * Math.exp(-rate * v));
      const fit = separableFit(decays(true)(x), y, [1]);
      expect(fit.status).toBe('ok');
      expectDigits([...fit.linear, ...fit.shape], [2, 5, rate], { atLeast: 9 });
    }
  });

  test('a weight of 2 equals a point given twice', () => {
    const y = x.map((v, i) => 2 + 5 * Math.exp(-0.7 * v) + 0.1 * (-1) ** i);
    const weighted = separableFit(decays(true)(x), y, [1], { weights: x.map((_, i) => (i === 3 ? 2 : 1)) });
    const twice = Float64Array.from([...x, x[3]!]);
    const repeated = separableFit(decays(true)(twice), [...y, y[3]!], [1]);
    expectDigits(weighted.shape, repeated.shape, { atLeast: 9 });
    expectDigits(weighted.sse, repeated.sse, { atLeast: 12 });
  });

  test('says when two shape parameters cannot be told apart', () => {
    const y = x.map((v, i) => 5 * Math.exp(-0.7 * v) + 0.1 * (-1) ** i);
    const sum: SeparableModel = {
      basis: ([a, b]) => [x.map((v) => Math.exp(-(a! + b!) * v))],
      derivatives: ([a, b]) => [0, 1].map(() => [x.map((v) => -v * Math.exp(-(a! + b!) * v))]),
    };
    expect(separableFit(sum, y, [0.5, 0.1]).status).toBe('singular');
  });

  test('a start where the model has no value is an input error', () => {
    expect(() => separableFit(decays(false)(x), x, [-1e6])).toThrow(InputError);
  });
});

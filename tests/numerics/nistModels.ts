import type { SeparableModel } from '../../src/numerics/separableFit.ts';

/** One column φ(x; s) of a model, and its derivatives by the shape parameters that it depends on. */
interface Term {
  value: (x: number[], s: Float64Array) => number;
  /** By the index of the shape parameter. */
  by: Record<number, (x: number[], s: Float64Array) => number>;
}

/** A NIST set in the form y = Σ linear·φ(x; shape). NIST calls its parameters b1, b2 …; here by position from 0. */
export interface Problem {
  terms: Term[];
  linear: number[];
  shape: number[];
  /**
   * Where the form has other parameters than NIST's: theirs from ours, and which of our standard errors is that of each
   * of theirs; null for those that are no parameter here.
   */
  translated?: {
    values: (linear: Float64Array, shape: Float64Array) => number[];
    errorAt: (number | null)[];
  };
  /** The last terms are decays that may come in any order: bring them into NIST's, ascending. */
  decaysLast?: true;
  /** The first linear and the first shape parameter may both change their sign. */
  mirrored?: true;
  /** Shape parameters for NIST's start, where they are not simply some of its parameters. */
  start?: (b: number[]) => number[];
  /** The readings as they are fitted. */
  reading?: (y: number) => number;
}

export function modelOf({ terms, shape }: Problem, rows: number[][]): SeparableModel {
  const column = (f: ((x: number[], s: Float64Array) => number) | undefined, s: Float64Array) =>
    Float64Array.from(rows, (x) => f?.(x, s) ?? 0);
  return {
    basis: (s) => terms.map((term) => column(term.value, s)),
    derivatives: (s) => shape.map((_, k) => terms.map((term) => column(term.by[k], s))),
  };
}

const constant: Term = { value: () => 1, by: {} };

/** e^(−s_k·x) */
const decay = (k: number): Term => ({
  value: ([x], s) => Math.exp(-s[k]! * x!),
  by: { [k]: ([x], s) => -x! * Math.exp(-s[k]! * x!) },
});

/** 1 − e^(−s·x) */
const saturation: Term = {
  value: ([x], [s]) => -Math.expm1(-s! * x!),
  by: { 0: ([x], [s]) => x! * Math.exp(-s! * x!) },
};

/** e^(−((x − s_place)/s_width)²) */
function bell(place: number, width: number): Term {
  const height = (x: number, s: Float64Array) => Math.exp(-(((x - s[place]!) / s[width]!) ** 2));
  return {
    value: ([x], s) => height(x!, s),
    by: {
      [place]: ([x], s) => ((2 * (x! - s[place]!)) / s[width]! ** 2) * height(x!, s),
      [width]: ([x], s) => ((2 * (x! - s[place]!) ** 2) / s[width]! ** 3) * height(x!, s),
    },
  };
}

/** x^k / (1 + s₀x + s₁x² + …) for k = 0 … powers − 1. */
function ratios(powers: number, shapes: number): Term[] {
  const below = (x: number, s: Float64Array) => s.reduce((sum, v, j) => sum + v * x ** (j + 1), 1);
  return Array.from({ length: powers }, (_, k) => ({
    value: ([x], s) => x! ** k / below(x!, s),
    by: Object.fromEntries(
      Array.from({ length: shapes }, (_, j) => [
        j,
        ([x]: number[], s: Float64Array) => -(x! ** (k + j + 1)) / below(x!, s) ** 2,
      ]),
    ),
  }));
}

/** cos and sin of 2πx/s_k */
function wave(k: number): Term[] {
  const angle = (x: number, s: Float64Array) => (2 * Math.PI * x) / s[k]!;
  return [
    {
      value: ([x], s) => Math.cos(angle(x!, s)),
      by: { [k]: ([x], s) => (Math.sin(angle(x!, s)) * angle(x!, s)) / s[k]! },
    },
    {
      value: ([x], s) => Math.sin(angle(x!, s)),
      by: { [k]: ([x], s) => (-Math.cos(angle(x!, s)) * angle(x!, s)) / s[k]! },
    },
  ];
}

const yearly: Term[] = [
  { value: ([x]) => Math.cos((2 * Math.PI * x!) / 12), by: {} },
  { value: ([x]) => Math.sin((2 * Math.PI * x!) / 12), by: {} },
];

const decays: Problem = {
  terms: [decay(0), decay(1), decay(2)],
  linear: [0, 2, 4],
  shape: [1, 3, 5],
  decaysLast: true,
};
const bells: Problem = {
  terms: [decay(0), bell(1, 2), bell(3, 4)],
  linear: [0, 2, 5],
  shape: [1, 3, 4, 6, 7],
};
const cubics: Problem = { terms: ratios(4, 3), linear: [0, 1, 2, 3], shape: [4, 5, 6] };

/** e^(−b1·x)/(b2 + b3·x), fitted as a·e^(−s₀x)/(1 + s₁x): b2 = 1/a, b3 = s₁/a. */
const decayOverLine: Problem = {
  terms: [
    {
      value: ([x], [s, r]) => Math.exp(-s! * x!) / (1 + r! * x!),
      by: {
        0: ([x], [s, r]) => (-x! * Math.exp(-s! * x!)) / (1 + r! * x!),
        1: ([x], [s, r]) => (-x! * Math.exp(-s! * x!)) / (1 + r! * x!) ** 2,
      },
    },
  ],
  linear: [],
  shape: [0, 2],
  start: ([b1, b2, b3]) => [b1!, b3! / b2!],
  translated: { values: ([a], [s, r]) => [s!, 1 / a!, r! / a!], errorAt: [1, null, null] },
};

const logistic = (x: number, s: Float64Array) => Math.exp(s[0]! - s[1]! * x);

/** Every set of the nonlinear collection that is linear in at least one parameter. */
export const PROBLEMS: Record<string, Problem> = {
  // b1(1 − e^(−b2·x))
  Misra1a: { terms: [saturation], linear: [0], shape: [1] },
  BoxBOD: { terms: [saturation], linear: [0], shape: [1] },
  // b1(1 − (1 + b2·x/2)^−2)
  Misra1b: {
    terms: [
      {
        value: ([x], [s]) => 1 - (1 + (s! * x!) / 2) ** -2,
        by: { 0: ([x], [s]) => x! * (1 + (s! * x!) / 2) ** -3 },
      },
    ],
    linear: [0],
    shape: [1],
  },
  // b1(1 − (1 + 2·b2·x)^−½)
  Misra1c: {
    terms: [
      {
        value: ([x], [s]) => 1 - (1 + 2 * s! * x!) ** -0.5,
        by: { 0: ([x], [s]) => x! * (1 + 2 * s! * x!) ** -1.5 },
      },
    ],
    linear: [0],
    shape: [1],
  },
  // b1·b2·x/(1 + b2·x)
  Misra1d: {
    terms: [
      {
        value: ([x], [s]) => (s! * x!) / (1 + s! * x!),
        by: { 0: ([x], [s]) => x! / (1 + s! * x!) ** 2 },
      },
    ],
    linear: [0],
    shape: [1],
  },
  Chwirut1: decayOverLine,
  Chwirut2: decayOverLine,
  Lanczos1: decays,
  Lanczos2: decays,
  Lanczos3: decays,
  // b1·x^b2
  DanWood: {
    terms: [{ value: ([x], [s]) => x! ** s!, by: { 0: ([x], [s]) => Math.log(x!) * x! ** s! } }],
    linear: [0],
    shape: [1],
  },
  // (b1 + b2·x + b3·x²)/(1 + b4·x + b5·x²)
  Kirby2: { terms: ratios(3, 2), linear: [0, 1, 2], shape: [3, 4] },
  Hahn1: cubics,
  Thurber: cubics,
  // log y = b1 − b2·x1·e^(−b3·x2)
  Nelson: {
    terms: [
      constant,
      {
        value: ([x1, x2], [s]) => -x1! * Math.exp(-s! * x2!),
        by: { 0: ([x1, x2], [s]) => x1! * x2! * Math.exp(-s! * x2!) },
      },
    ],
    linear: [0, 1],
    shape: [2],
    reading: Math.log,
  },
  // b1(x² + b2·x)/(x² + b3·x + b4): the second coefficient is b1·b2
  MGH09: {
    terms: [2, 1].map((k) => {
      const below = (x: number, [s, t]: Float64Array) => x * x + s! * x + t!;
      return {
        value: ([x], s) => x! ** k / below(x!, s),
        by: {
          0: ([x], s) => -(x! ** (k + 1)) / below(x!, s) ** 2,
          1: ([x], s) => -(x! ** k) / below(x!, s) ** 2,
        },
      } satisfies Term;
    }),
    linear: [0],
    shape: [2, 3],
    translated: { values: ([a, b], [s, t]) => [a!, b! / a!, s!, t!], errorAt: [0, null, 2, 3] },
  },
  // b1·e^(b2/(x + b3))
  MGH10: {
    terms: [
      {
        value: ([x], [s, t]) => Math.exp(s! / (x! + t!)),
        by: {
          0: ([x], [s, t]) => Math.exp(s! / (x! + t!)) / (x! + t!),
          1: ([x], [s, t]) => (-s! / (x! + t!) ** 2) * Math.exp(s! / (x! + t!)),
        },
      },
    ],
    linear: [0],
    shape: [1, 2],
  },
  // b1 + b2·e^(−b4·x) + b3·e^(−b5·x)
  MGH17: { terms: [constant, decay(0), decay(1)], linear: [0, 1, 2], shape: [3, 4], decaysLast: true },
  // (b1/b2)·e^(−½((x − b3)/b2)²)
  Eckerle4: {
    terms: [
      {
        value: ([x], [w, m]) => Math.exp(-0.5 * ((x! - m!) / w!) ** 2) / w!,
        by: {
          0: ([x], [w, m]) =>
            (Math.exp(-0.5 * ((x! - m!) / w!) ** 2) / w! ** 2) * (((x! - m!) / w!) ** 2 - 1),
          1: ([x], [w, m]) => (Math.exp(-0.5 * ((x! - m!) / w!) ** 2) * (x! - m!)) / w! ** 3,
        },
      },
    ],
    linear: [0],
    shape: [1, 2],
    mirrored: true,
  },
  // b1/(1 + e^(b2 − b3·x))
  Rat42: {
    terms: [
      {
        value: ([x], s) => 1 / (1 + logistic(x!, s)),
        by: {
          0: ([x], s) => -logistic(x!, s) / (1 + logistic(x!, s)) ** 2,
          1: ([x], s) => (x! * logistic(x!, s)) / (1 + logistic(x!, s)) ** 2,
        },
      },
    ],
    linear: [0],
    shape: [1, 2],
  },
  // b1/(1 + e^(b2 − b3·x))^(1/b4)
  Rat43: {
    terms: [
      {
        value: ([x], s) => (1 + logistic(x!, s)) ** (-1 / s[2]!),
        by: {
          0: ([x], s) => (-logistic(x!, s) / s[2]!) * (1 + logistic(x!, s)) ** (-1 / s[2]! - 1),
          1: ([x], s) => ((x! * logistic(x!, s)) / s[2]!) * (1 + logistic(x!, s)) ** (-1 / s[2]! - 1),
          2: ([x], s) => (Math.log1p(logistic(x!, s)) / s[2]! ** 2) * (1 + logistic(x!, s)) ** (-1 / s[2]!),
        },
      },
    ],
    linear: [0],
    shape: [1, 2, 3],
  },
  // b1·(b2 + x)^(−1/b3)
  Bennett5: {
    terms: [
      {
        value: ([x], [s, t]) => (s! + x!) ** (-1 / t!),
        by: {
          0: ([x], [s, t]) => (-1 / t!) * (s! + x!) ** (-1 / t! - 1),
          1: ([x], [s, t]) => (Math.log(s! + x!) / t! ** 2) * (s! + x!) ** (-1 / t!),
        },
      },
    ],
    linear: [0],
    shape: [1, 2],
  },
  Gauss1: bells,
  Gauss2: bells,
  Gauss3: bells,
  // b1 + b2·cos(2πx/12) + b3·sin(2πx/12) + b5·cos(2πx/b4) + b6·sin(2πx/b4) + b8·cos(2πx/b7) + b9·sin(2πx/b7)
  ENSO: {
    terms: [constant, ...yearly, ...wave(0), ...wave(1)],
    linear: [0, 1, 2, 4, 5, 7, 8],
    shape: [3, 6],
  },
};

/** Sets that cannot be fitted by separable least squares, and why. */
export const NOT_SEPARABLE: Record<string, string> = {
  Roszman1: 'its arctan term has no coefficient of its own, so it is no column of a linear part',
};

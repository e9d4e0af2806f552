import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { leastSquares } from '../../src/numerics/leastSquares.ts';
import { separableFit } from '../../src/numerics/separableFit.ts';
import { digits } from '../digits.ts';
import linearSets from '../references/nist/linear.json' with { type: 'json' };
import nonlinearSets from '../references/nist/nonlinear.json' with { type: 'json' };
import { modelOf, NOT_SEPARABLE, PROBLEMS, type Problem } from './nistModels.ts';

// U.S. National Institute of Standards and Technology, Statistical Reference Datasets: every set of the linear and of
// the nonlinear regression collection. tests/references/nist/digits.md is the table of digits that were reached.
const TABLE = new URL('../references/nist/digits.md', import.meta.url);

/** Correct digits of coefficients, standard errors and what is left over. */
type Digits = [b: number, se: number, rest: number];

const fewest = (got: readonly number[], expected: readonly number[]) =>
  Math.min(...expected.map((value, k) => digits(got[k]!, value)));

interface LinearSet {
  x: number[] | number[][];
  y: number[];
  certified: { b: number[]; se: number[]; rsd: number };
}

/** Powers of x for the polynomial sets, 1 and the given regressors for Longley; nothing centred. */
function designOf({ x, certified }: LinearSet): number[][] {
  return certified.b.map((_, k) =>
    x.map((row) => (Array.isArray(row) ? (k === 0 ? 1 : row[k - 1]!) : row ** k)),
  );
}

function linearDigits(set: LinearSet): Digits {
  const { status, coefficients, standardErrors, residualSd } = leastSquares(designOf(set), set.y);
  const { b, se, rsd } = set.certified;
  if (status !== 'ok') return [0, 0, 0];
  const found = fewest([...coefficients], b);
  // Wampler 1 and 2 leave nothing over: what is left is compared with the size of the readings.
  if (rsd === 0) return [found, Number.NaN, digits(residualSd / Math.max(...set.y), 0)];
  return [found, fewest([...standardErrors], se), digits(residualSd, rsd)];
}

interface NonlinearSet {
  x: (number | number[])[];
  y: number[];
  start1: number[];
  start2: number[];
  certified: { b: number[]; se: number[]; rss: number };
}
const NONLINEAR = nonlinearSets.sets as Record<string, NonlinearSet>;

function nonlinearDigits(name: string, from: 'start1' | 'start2'): Digits {
  const set = NONLINEAR[name]!;
  const problem = PROBLEMS[name]!;
  const rows = set.x.map((row) => (Array.isArray(row) ? row : [row]));
  const start = problem.start?.(set[from]) ?? problem.shape.map((k) => set[from][k]!);
  const fit = separableFit(modelOf(problem, rows), set.y.map(problem.reading ?? Number), start);
  if (fit.status !== 'ok') return [0, 0, 0];
  const { b, se, rss } = set.certified;
  const { values, errors } = inNistOrder(problem, fit.linear, fit.shape, fit.standardErrors);
  const known = se.flatMap((value, k) => (errors[k] === null ? [] : [digits(errors[k]!, value)]));
  return [fewest(values, b), Math.min(...known), digits(fit.sse, rss)];
}

function inNistOrder(
  { linear, shape, translated, decaysLast, mirrored }: Problem,
  found: Float64Array,
  bent: Float64Array,
  standardErrors: Float64Array,
): { values: number[]; errors: (number | null)[] } {
  if (translated) {
    const errors = translated.errorAt.map((k) => (k === null ? null : standardErrors[k]!));
    return { values: translated.values(found, bent), errors };
  }
  const before = found.length - bent.length;
  const terms = [...bent.keys()];
  if (decaysLast) terms.sort((a, b) => bent[a]! - bent[b]!);
  const ours = [
    ...(decaysLast ? [...found.keys()].slice(0, before) : found.keys()),
    ...(decaysLast ? terms.map((k) => before + k) : []),
    ...terms.map((k) => found.length + k),
  ];
  const all = [...found, ...bent];
  // A bell is the same with both its height and its width negative.
  if (mirrored && bent[0]! < 0) {
    all[0]! *= -1;
    all[1]! *= -1;
  }
  const place = (k: number) => ours[[...linear, ...shape].indexOf(k)]!;
  const count = linear.length + shape.length;
  const order = Array.from({ length: count }, (_, k) => place(k));
  return { values: order.map((k) => all[k]!), errors: order.map((k) => standardErrors[k]!) };
}

// What double precision allows on each: coefficients, standard errors, residual SD. Filip and the Wamplers are made
// hard on purpose (powers of x up to the 10th, errors up to 10,000 times the signal).
const LINEAR_ASKED: Record<string, Digits> = {
  Norris: [12.5, 12, 12],
  Pontius: [12.5, 12, 12],
  Longley: [12, 11, 11],
  Filip: [7.4, 7, 7],
  Wampler1: [9.2, 0, 12],
  Wampler2: [12.5, 0, 12],
  Wampler3: [9, 10, 10],
  Wampler4: [7.6, 10, 10],
  Wampler5: [5.5, 10, 10],
};

/** The certified values have 11 digits, so 10 is as much as can be asked. */
const ALL: Digits = [10, 10, 10];
/** Sets that fall short of it, and why. */
const SHORT: Record<string, { asked: Digits; why: string }> = {
  Lanczos1: {
    asked: [10, 2.5, 2],
    why: 'its residuals, 1e-13, are little more than the rounding of the readings',
  },
  Lanczos2: {
    asked: [10, 9.8, 9.5],
    why: 'its residuals, 1e-6, hold 10 digits beside the rounding of the readings',
  },
};

const rows = [
  ...Object.entries(linearSets.sets as unknown as Record<string, LinearSet>).map(([name, set]) => ({
    name,
    from: 'linear',
    asked: LINEAR_ASKED[name]!,
    seen: linearDigits(set),
  })),
  ...Object.keys(PROBLEMS).flatMap((name) =>
    (['start1', 'start2'] as const).map((from) => ({
      name,
      from: from.replace('start', 'start '),
      asked: SHORT[name]?.asked ?? ALL,
      seen: nonlinearDigits(name, from),
    })),
  ),
];

const shown = (found: number) => (Number.isNaN(found) ? '–' : Math.min(found, 15).toFixed(1));
const lineOf = (r: (typeof rows)[number]) => `| ${[r.name, r.from, ...r.seen.map(shown)].join(' | ')} |`;

function tableOf(lines: string[]): string {
  return [
    '# Digits on the NIST Statistical Reference Datasets',
    '',
    'Correct digits (at most 15) of the coefficients, their standard errors and the residual SD (linear sets) or sum of',
    'squares (nonlinear ones), the fewest of each set, as `tests/numerics/nist.test.ts` finds them. Linear sets are',
    'certified to 15 digits and nonlinear ones to 11. Written by `WRITE_DIGITS=1 npx vitest run tests/numerics/nist.test.ts`.',
    '',
    '| set | from | coefficients | standard errors | left over |',
    '|---|---|---|---|---|',
    ...lines,
    '',
    'Short of 10 digits on nonlinear sets:',
    '',
    ...Object.entries(SHORT).map(([name, { why }]) => `- ${name}: ${why}.`),
    '',
    'Not fitted:',
    '',
    ...Object.entries(NOT_SEPARABLE).map(([name, why]) => `- ${name}: ${why}.`),
    '',
  ].join('\n');
}

/** The first of the three kinds of digits that falls short; null when none does. */
function shortfall(seen: Digits, asked: Digits): string | null {
  const kinds = ['coefficients', 'standard errors', 'left over'];
  const k = seen.findIndex((found, i) => !(found >= asked[i]! || (Number.isNaN(found) && asked[i] === 0)));
  return k < 0 ? null : `${kinds[k]}: ${seen[k]!.toFixed(1)} digits, ${asked[k]} asked`;
}

describe('NIST reference datasets', () => {
  test('every set is asked for, or named with the reason why not', () => {
    expect(Object.keys(LINEAR_ASKED).sort()).toEqual(Object.keys(linearSets.sets).sort());
    expect(Object.keys(NONLINEAR)).toHaveLength(27);
    expect([...Object.keys(PROBLEMS), ...Object.keys(NOT_SEPARABLE)].sort()).toEqual(
      Object.keys(NONLINEAR).sort(),
    );
  });

  test.each(rows)('$name, $from', ({ seen, asked }) => {
    expect(shortfall(seen, asked)).toBeNull();
  });

  test('the table of digits is the one that was reached', () => {
    if (process.env.WRITE_DIGITS) writeFileSync(TABLE, tableOf(rows.map(lineOf)));
    const lines = readFileSync(TABLE, 'utf8').split('\n');
    const kept = lines.filter((line) => /^\| \w+ \| (linear|start)/.test(line));
    expect(tableOf(kept)).toBe(lines.join('\n'));
    expect(kept).toHaveLength(rows.length);
    kept.forEach((line, i) => {
      const [name, from, ...values] = line.slice(2, -2).split(' | ');
      const { seen } = rows[i]!;
      expect([name, from]).toEqual([rows[i]!.name, rows[i]!.from]);
      // Another build of the exponential function may move the last digit.
      values.forEach((value, k) => {
        if (value === '–') expect(seen[k]).toBeNaN();
        else expect(Math.abs(Math.min(seen[k]!, 15) - Number(value)), line).toBeLessThan(1);
      });
    });
  });

  test('the check can fail', () => {
    expect(shortfall([9.9, 11, 11], ALL)).toBe('coefficients: 9.9 digits, 10 asked');
    expect(shortfall([11, Number.NaN, 11], ALL)).toMatch(/standard errors: NaN/);
    expect(shortfall([11, 11, -2], ALL)).toMatch(/left over/);
    expect(shortfall([10, 10, 10], ALL)).toBeNull();
    // Data that are off in the 4th digit leave no more than 4 of the certified ones.
    const norris = linearSets.sets.Norris as unknown as LinearSet;
    const [b] = linearDigits({ ...norris, y: norris.y.map((v, i) => (i === 0 ? v * 1.5 : v)) });
    expect(b).toBeLessThan(4);
  });
});

import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';

const root = path.resolve(import.meta.dirname, '../..');
const FOLDERS = ['base', 'numerics', 'physiology'];

interface Example {
  expression: string;
  /** The value as it stands behind the two slashes. */
  printed: string;
}

/** The lines `expression // value` that follow an `@example` up to the end of its doc comment. */
function examplesIn(text: string): Example[] {
  return [...text.matchAll(/@example\s*\n([\s\S]*?)\*\//g)].flatMap(([, block]) =>
    block!
      .split('\n')
      .map((line) => /^\s*\*\s?(.+?)\s+\/\/\s+(.+?)\s*$/.exec(line))
      .filter((match) => match !== null)
      .map(([, expression, printed]) => ({ expression: expression!, printed: printed! })),
  );
}

const evaluate = (expression: string, scope: Record<string, unknown>): unknown =>
  new Function(...Object.keys(scope), `'use strict'; return (${expression});`)(...Object.values(scope));

/** Agreement of a number to the decimals printed; a whole number must be met to 1e-9. */
function numberAgrees(got: unknown, printed: number): boolean {
  if (typeof got !== 'number') return false;
  if (!Number.isFinite(printed)) return Object.is(got, printed);
  const [mantissa, exponent = '0'] = String(printed).split('e');
  const decimals = (mantissa!.split('.')[1] ?? '').length;
  const tolerance = decimals === 0 ? 1e-9 : 0.5 * 10 ** (Number(exponent) - decimals);
  return Math.abs(got - printed) <= tolerance * (1 + 1e-9);
}

function agrees(got: unknown, printed: unknown): boolean {
  if (typeof printed === 'number') return numberAgrees(got, printed);
  if (typeof printed !== 'object' || printed === null) return got === printed;
  if (typeof got !== 'object' || got === null) return false;
  const entries = Object.entries(printed);
  if (Object.keys(got).length !== entries.length) return false;
  return entries.every(([key, value]) => agrees((got as Record<string, unknown>)[key], value));
}

/** What is wrong with an example; null when it holds. */
function fault({ expression, printed }: Example, scope: Record<string, unknown>): string | null {
  const got = evaluate(expression, scope);
  return agrees(got, evaluate(printed, {}))
    ? null
    : `${expression} is ${JSON.stringify(got)}, not ${printed}`;
}

const files = FOLDERS.flatMap((folder) =>
  readdirSync(path.join(root, 'src', folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => path.join('src', folder, file)),
);
const cases = files.flatMap((file) =>
  examplesIn(readFileSync(path.join(root, file), 'utf8')).map((example) => ({ file, ...example })),
);

describe('examples in doc comments', () => {
  test('are found: every @example has at least one line that can be run', () => {
    const announced = files.filter((file) =>
      /\*\s*@example/.test(readFileSync(path.join(root, file), 'utf8')),
    );
    expect(announced.length).toBeGreaterThan(10);
    expect([...new Set(cases.map(({ file }) => file))]).toEqual(announced);
  });

  test.each(cases)('$file: $expression', async ({ file, ...example }) => {
    const scope: Record<string, unknown> = await import(path.join(root, file));
    expect(fault(example, scope)).toBeNull();
  });
});

describe('the check can fail', () => {
  const scope = { half: (x: number) => x / 2, pair: () => Float64Array.of(1, 2.5), name: () => 'abc' };
  const planted = (line: string) => {
    const [example] = examplesIn(`/**\n * Text.\n *\n * @example\n * ${line}\n */`);
    return fault(example!, scope);
  };

  test.each([
    'half(3) // 1.5',
    'half(2 / 3) // 0.333',
    'half(8) // 4',
    'pair() // [1, 2.5]',
    "name() // 'abc'",
    'half(-Infinity) // -Infinity',
    'half(2e-7 / 3) // 3.33e-8',
  ])('passes %s', (line) => {
    expect(planted(line)).toBeNull();
  });

  test.each([
    'half(3) // 1.6',
    'half(2 / 3) // 0.334',
    'half(8.001) // 4',
    'half(8) // -4',
    'pair() // [1, 2.6]',
    'pair() // [1, 2.5, 3]',
    "name() // 'abd'",
    'half(NaN) // 0',
    'half(2e-7 / 3) // 3.34e-8',
  ])('catches %s', (line) => {
    expect(planted(line)).toContain(', not ');
  });
});

import { expect, test } from 'vitest';
import { spelled } from '../../src/tools/kernel.mjs';

test('type-only imports become imports, in front of the list and within it', () => {
  const text = `import type { Curve } from './curve.ts';
import { type Answer, give, type RefusalCode } from './answer.ts';
import {
  refuse,
  type Estimator,
} from './estimator.ts';
`;
  expect(spelled(text)).toBe(`import { Curve } from './curve.ts';
import { Answer, give, RefusalCode } from './answer.ts';
import {
  refuse,
  Estimator,
} from './estimator.ts';
`);
});

test('private names become names, wherever they stand', () => {
  expect(spelled('readonly #x: number;\n  #next(): i32 { return this.#state[0]! ^ this.#x; }')).toBe(
    'readonly _x: number;\n  _next(): i32 { return this._state[0]! ^ this._x; }',
  );
});

test('a type that is one of some words becomes text, and no other type does', () => {
  const words = "export type FitStatus = 'ok' | 'singular';\ntype Kind =\n  | 'one'\n  | 'two';\n";
  expect(spelled(words)).toBe('export type FitStatus = string;\ntype Kind = string;\n');
  const other = 'export type Places = Float64Array;\n';
  expect(spelled(other)).toBe(other);
});

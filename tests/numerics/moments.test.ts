import { expect, test } from 'vitest';
import { moments } from '../../src/numerics/moments.ts';
import { expectDigits } from '../digits.ts';
import nist from '../references/nist/univariate.json' with { type: 'json' };

/** The four NumAcc sets of NIST StRD: a first value, then two others in turn, 1001 in all. */
const numAcc = (first: number, low: number, high: number) => [
  first,
  ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
];

test.each(Object.entries(nist.sets))('NIST StRD %s', (_, { data, certified }) => {
  const { mean, sd } = moments(data);
  expectDigits(mean, certified.mean, { atLeast: 14 });
  expectDigits(sd, certified.sd, { atLeast: 12 });
});

// Digits of the SD are bounded by how exactly doubles hold the data: .1 on 10⁷ leaves 8 to 9.
test.each([
  ['NumAcc1', [10000001, 10000003, 10000002], 10000002, 1, 15],
  ['NumAcc2', numAcc(1.2, 1.1, 1.3), 1.2, 0.1, 14],
  ['NumAcc3', numAcc(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 9],
  ['NumAcc4', numAcc(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 8],
] as const)('NIST StRD %s', (_, data, mean, sd, atLeast) => {
  const got = moments(data);
  expectDigits(got.mean, mean, { atLeast: 14 });
  expectDigits(got.sd, sd, { atLeast });
});

test('a weight of 2 equals a value given twice', () => {
  const weighted = moments([1, 4, 2], { weights: [1, 2, 1] });
  expect(weighted).toEqual(moments([1, 4, 4, 2]));
});

test('one value has no standard deviation, none has no mean', () => {
  expect(moments([3])).toEqual({ mean: 3, sd: NaN, count: 1 });
  expect(moments([]).mean).toBeNaN();
});

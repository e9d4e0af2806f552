/**
 * Correct digits of a computed value: minus the decimal logarithm of its relative error (of the error itself when
 * the expected value is 0). The sign counts: a value of the wrong sign has no correct digit.
 */
export function digits(got: number, expected: number): number {
  if (Object.is(got, expected) || got === expected) return 17;
  const error = expected === 0 ? Math.abs(got) : Math.abs(got - expected) / Math.abs(expected);
  return Number.isNaN(error) ? Number.NEGATIVE_INFINITY : -Math.log10(error);
}

/** Fail unless every value has at least so many correct digits; returns the fewest. */
export function expectDigits(
  got: number | ArrayLike<number>,
  expected: number | ArrayLike<number>,
  { atLeast, what = 'value' }: { atLeast: number; what?: string },
): number {
  const gotList = typeof got === 'number' ? [got] : Array.from(got);
  const expectedList = typeof expected === 'number' ? [expected] : Array.from(expected);
  if (gotList.length !== expectedList.length || gotList.length === 0) {
    throw new Error(`${what}: ${gotList.length} values against ${expectedList.length} expected`);
  }
  let fewest = Number.POSITIVE_INFINITY;
  gotList.forEach((value, i) => {
    const correct = digits(value, expectedList[i]!);
    fewest = Math.min(fewest, correct);
    if (!(correct >= atLeast)) {
      const place = gotList.length > 1 ? `${what}[${i}]` : what;
      throw new Error(
        `${place}: ${value} has ${correct.toFixed(1)} digits of ${expectedList[i]}, at least ${atLeast} are asked for`,
      );
    }
  });
  return fewest;
}

import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { suspiciousReadings } from '../../src/physiology/suspiciousReadings.ts';
import { REAL, stepTest } from './stepTests.ts';

const x = [100, 140, 180, 220, 260, 300, 340, 380];
const exact = x.map((w) => 0.9 + 0.05 * Math.exp((w - 100) / 55));
const found = (y: number[]) => suspiciousReadings(usableReadings(stepTest(x, y)));

describe('suspicious readings', () => {
  test('one that is off by 1 mmol/L is found, with what the curve of the others says', () => {
    for (const off of [1, 2, 3, 4, 5]) {
      const [one, ...more] = found(exact.map((lactate, i) => (i === off ? lactate + 1 : lactate)));
      expect(more).toEqual([]);
      expect(one!.index).toBe(off);
      expect(one!.expected).toBeCloseTo(exact[off]!, 6);
    }
  });

  test('ordinary meter noise is left alone: fewer than one test in fifty is flagged', () => {
    const random = new Random(11);
    const tests = 500;
    let flagged = 0;
    for (let k = 0; k < tests; k++) {
      if (found(exact.map((lactate) => lactate + 0.1 * random.normal())).length > 0) flagged++;
    }
    expect(flagged).toBeLessThan(tests / 50);
  });

  test('a jump above both neighbours is found on tests too short for a curve', () => {
    const short = usableReadings(stepTest([100, 150, 200, 250], [1, 2.2, 1.4, 3]));
    expect(suspiciousReadings(short)).toEqual([{ index: 1, expected: 1.2 }]);
  });

  test('the first and the last reading are never blamed, and the real tests have no false alarm', () => {
    expect(
      found(exact.map((lactate, i) => (i === 0 ? lactate + 2 : lactate))).map((s) => s.index),
    ).not.toContain(0);
    // The dips and jumps of these sixteen tests stay below 0.4 mmol/L.
    for (const [name, { intensity, lactate }] of REAL) {
      expect(suspiciousReadings(usableReadings(stepTest(intensity, lactate))), name).toEqual([]);
    }
  });
});

import { describe, expect, test } from 'vitest';
import { fitLogTimeDecline, LOG_TIME_DECLINE } from '../../../src/physiology/training/logTimeDecline.ts';
import { fitPowerLaw, POWER_LAW } from '../../../src/physiology/training/powerLaw.ts';
import { expectDigits } from '../../digits.ts';
// Numpy's polyfit (criticalPower.py, durations.py).
import forms from '../../references/training/criticalPower.json' with { type: 'json' };
import durations from '../../references/training/durations.json' with { type: 'json' };

const trials = (seconds: number[], intensity: number[]) => ({
  kind: 'time-trial' as const,
  seconds: Float64Array.from(seconds),
  intensity: Float64Array.from(intensity),
});

describe('power law', () => {
  test.each(Object.entries(forms))('as numpy has it: %s', (_, { P, t, fit }) => {
    const { scale, exponent } = fitPowerLaw(t, P);
    expectDigits([scale, exponent], [fit.power_law.S, fit.power_law.exponent], { atLeast: 10 });
    expectDigits(scale * 3600 ** exponent, fit.power_law.P60, { atLeast: 10 });
  });

  test.each(Object.entries(durations.sets))('its standard error as numpy has it: %s', (_, set) => {
    const { exponentError } = fitPowerLaw(set.seconds, set.intensity);
    expectDigits(exponentError, set.powerLaw.exponentError, { atLeast: 10 });
  });

  test('the exponent 1.06 of the race formula comes back (Riegel 1981): speed falls as time to 1/1.06 − 1', () => {
    // 10 km in 40:00; 21.0975 km in 40:00·(21.0975/10)^1.06.
    const times = [2400, 2400 * 2.10975 ** 1.06];
    const speeds = [10 / times[0]!, 21.0975 / times[1]!];
    expect(fitPowerLaw(times, speeds).exponent).toBeCloseTo(1 / 1.06 - 1, 10);
  });

  test('is asked at most three times the longest effort, and refuses what rises', () => {
    expect(POWER_LAW.range(trials([300, 1200], [300, 280])).to).toBe(3600);
    expect(POWER_LAW.fit(trials([300, 1200], [280, 300])).refused).toMatch(/not the easier ones/);
  });
});

describe('log-time decline', () => {
  test.each(Object.entries(durations.sets).filter(([name]) => name !== 'five'))(
    'as numpy has it from 7 min on: %s',
    (_, set) => {
      const long = set.seconds.flatMap((s, i) => (s >= 420 ? [i] : []));
      const { maximal, loss } = fitLogTimeDecline(
        long.map((i) => set.seconds[i]!),
        long.map((i) => set.intensity[i]!),
      );
      expectDigits([maximal, loss], [set.decline.maximal, set.decline.loss], { atLeast: 10 });
    },
  );

  test('60 min at a loss of 6 % is 87 % of the 7-min intensity (Péronnet & Thibault 1989, from memory)', () => {
    const fit = LOG_TIME_DECLINE.fit(trials([420, 420 * Math.E], [300, 282]));
    if (fit.refused !== null) throw new Error(fit.refused);
    expect(fit.curve.intensityFor(3600) / 300).toBeCloseTo(0.871, 3);
    expect(fit.curve.secondsAt(fit.curve.intensityFor(2000))).toBeCloseTo(2000, 6);
    expect(fit.warnings).toEqual([]);
  });

  test('short efforts do not count, and an unusual loss is told', () => {
    expect(LOG_TIME_DECLINE.fit(trials([180, 400, 1200], [350, 320, 290])).refused).toMatch(
      /7 min or longer; there is 1/,
    );
    const steep = LOG_TIME_DECLINE.fit(trials([420, 1200], [320, 270]));
    if (steep.refused !== null) throw new Error(steep.refused);
    expect(steep.warnings[0]).toMatch(/A loss of 14\.9 % is outside/);
  });
});

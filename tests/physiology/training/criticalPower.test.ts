import { describe, expect, test } from 'vitest';
import { CRITICAL_POWER, CRITICAL_POWER_3 } from '../../../src/physiology/training/criticalPower.ts';
import { fitHyperbola } from '../../../src/physiology/training/hyperbola.ts';
import { fitThreeParameters } from '../../../src/physiology/training/threeParameters.ts';
import { expectDigits } from '../../digits.ts';
// Five published forms by numpy and scipy (criticalPower.py); group means of Pallarés 2020 with their published value.
import forms from '../../references/training/criticalPower.json' with { type: 'json' };
// Errors in proportion by scipy (durations.py); the two-parameter log-time fit of `five` also by R nls: 258.6370974.
import durations from '../../references/training/durations.json' with { type: 'json' };

const points = (seconds: number[], intensity: number[], kind: 'time-trial' | 'exhaustion') => ({
  kind,
  seconds: Float64Array.from(seconds),
  intensity: Float64Array.from(intensity),
});
const {
  exact_2param: exact2,
  exact_3param: exact3,
  noisy_5_trial: noisy,
  pallares2020_group_means: group,
} = forms;

describe('the published forms against numpy and scipy', () => {
  const FORMS = [
    ['work-time', 'work_time'],
    ['inverse-time', 'inverse_time'],
    ['time', 'hyperbolic_t_of_P'],
  ] as const;

  test.each(FORMS)('%s', (form, key) => {
    for (const { P, t, fit } of [exact3, noisy, group]) {
      const got = fitHyperbola(t, P, form);
      expectDigits(got.critical, fit[key].CP, { atLeast: 6, what: `${form} critical` });
      expectDigits(got.reserve, fit[key].Wp, { atLeast: 5, what: `${form} reserve` });
      expectDigits(got.criticalError, fit[key].se_CP, { atLeast: 4, what: `${form} error` });
      expectDigits(got.reserveError, fit[key].se_Wp, { atLeast: 4, what: `${form} reserve error` });
    }
  });

  test('every form gives back an exact hyperbola', () => {
    for (const form of ['work-time', 'inverse-time', 'relative-intensity', 'time', 'log-time'] as const) {
      const got = fitHyperbola(exact2.t, exact2.P, form);
      expectDigits([got.critical, got.reserve], [250, 20_000], { atLeast: 7, what: form });
    }
  });

  test('group means of 14 cyclists: within the published 242 ± 19 W by work and time (Pallarés 2020, abstract)', () => {
    expect(Math.abs(fitHyperbola(group.t, group.P, 'work-time').critical - 242)).toBeLessThan(19);
  });

  test('three parameters: exact trials come back, the made-up ones as scipy has them', () => {
    for (const form of ['time', 'log-time', 'relative-intensity'] as const) {
      const got = fitThreeParameters(exact3.t, exact3.P, form);
      expectDigits([got.critical, got.reserve, got.maximal], [240, 25_000, 1000], { atLeast: 5, what: form });
    }
    const { CP, Wp, Pmax, rss_s2 } = noisy.fit.three_param;
    const got = fitThreeParameters(noisy.t, noisy.P, 'time');
    expectDigits([got.critical, got.reserve, got.maximal, got.sse], [CP, Wp, Pmax, rss_s2], { atLeast: 4 });
  });
});

describe.each(Object.entries(durations.sets))('errors in proportion against scipy: %s', (_, set) => {
  test('two parameters', () => {
    for (const [form, key] of [
      ['log-time', 'logTime'],
      ['relative-intensity', 'relativeIntensity'],
    ] as const) {
      const got = fitHyperbola(set.seconds, set.intensity, form);
      expectDigits([got.critical, got.reserve], [set.two[key].critical, set.two[key].reserve], {
        atLeast: 6,
        what: form,
      });
      // The Jacobian of the reference is scaled by the observed intensity, as the weights here are.
      expectDigits([got.criticalError, got.reserveError], set.two[key].errors, { atLeast: 4, what: form });
    }
  });

  test('three parameters: no worse a fit, and the same one', () => {
    for (const [form, key] of [
      ['log-time', 'logTime'],
      ['relative-intensity', 'relativeIntensity'],
    ] as const) {
      const got = fitThreeParameters(set.seconds, set.intensity, form);
      const { critical, reserve, maximal, sse } = set.three[key];
      expect(got.sse).toBeLessThanOrEqual(sse * (1 + 1e-6));
      expectDigits([got.critical, got.reserve, got.maximal], [critical, reserve, maximal], {
        atLeast: 4,
        what: form,
      });
    }
  });
});

describe('laws', () => {
  test('other units and another order change nothing but the unit', () => {
    const { seconds, intensity } = durations.sets.six;
    for (const form of ['log-time', 'relative-intensity'] as const) {
      const base = fitHyperbola(seconds, intensity, form);
      const scaled = fitHyperbola(
        seconds.toReversed(),
        intensity.toReversed().map((value) => value / 72),
        form,
      );
      expectDigits([72 * scaled.critical, 72 * scaled.reserve], [base.critical, base.reserve], {
        atLeast: 6,
      });
    }
  });
});

describe('the models say what they cannot do', () => {
  const five = durations.sets.five;

  test('two efforts are too few, and three that are too alike', () => {
    expect(CRITICAL_POWER.fit(points([200, 800], [350, 300], 'time-trial')).refused).toMatch(
      /at least 3 efforts/,
    );
    expect(CRITICAL_POWER.fit(points([600, 700, 800], [310, 305, 300], 'time-trial')).refused).toMatch(
      /2\.5 times the shortest; here it is 1\.3/,
    );
    expect(CRITICAL_POWER_3.fit(points([200, 400, 800], [350, 320, 300], 'exhaustion')).refused).toMatch(
      /at least 4/,
    );
  });

  test.each(['time-trial', 'exhaustion'] as const)('longer but harder efforts are refused: %s', (kind) => {
    expect(CRITICAL_POWER.fit(points([120, 300, 900], [250, 280, 320], kind)).refused).toMatch(
      /do not fall off/,
    );
  });

  test('no highest intensity among exact two-parameter trials', () => {
    expect(CRITICAL_POWER_3.fit(points(exact2.t, exact2.P, 'time-trial')).refused).toMatch(
      /no highest intensity/,
    );
  });

  test('three efforts give no standard error; five do, and the curve and its inverse agree', () => {
    const three = CRITICAL_POWER.fit(points([120, 300, 900], [416, 316, 275], 'exhaustion'));
    const all = CRITICAL_POWER.fit(points(five.seconds, five.intensity, 'exhaustion'));
    if (three.refused !== null || all.refused !== null) throw new Error('refused');
    expect(three.parameters[0]!.standardError).toBeNaN();
    expect(all.parameters[0]!.standardError).toBeGreaterThan(0);
    expect(all.curve.secondsAt(all.curve.intensityFor(500))).toBeCloseTo(500, 6);
    expect(all.curve.secondsAt(200)).toBe(Number.POSITIVE_INFINITY);
  });

  test('the hyperbola is never asked beyond 20 min', () => {
    for (const model of [CRITICAL_POWER, CRITICAL_POWER_3]) {
      expect(model.range(points(five.seconds, five.intensity, 'exhaustion')).to).toBe(1200);
    }
  });
});

import { describe, expect, test } from 'vitest';
import {
  demandAt,
  kilocaloriesPerLitre,
  OXYGEN_UPTAKE,
  substratesBurned,
  triangular,
} from '../../../src/physiology/training/energy.ts';
import { intakeFor } from '../../../src/physiology/training/intake.ts';
import { expectDigits } from '../../digits.ts';
import physiology from '../../references/training/physiology.json' with { type: 'json' };

describe('equations of the American College of Sports Medicine', () => {
  test('printed worked answers: cycling 450 kgm/min at 62 kg gives 20, walking 93.8 m/min up 10 % gives 29.76', () => {
    // 1.8 for a kgm/min is 10.8 for a W of 6 kgm/min.
    expect(OXYGEN_UPTAKE.cycling(450 / 6, 62).toFixed(0)).toBe('20');
    expect(OXYGEN_UPTAKE.walking(93.8, 0.1).toFixed(2)).toBe('29.76');
  });

  test('the other worked values of the reference', () => {
    const [cycle, walk, run, cycle250] = physiology.acsm.examples.map((example) => example.value);
    expectDigits(
      [
        OXYGEN_UPTAKE.cycling(75, 62),
        OXYGEN_UPTAKE.walking(93.8, 0.1),
        OXYGEN_UPTAKE.running(200),
        OXYGEN_UPTAKE.cycling(250, 75),
      ],
      [cycle!, walk!, run!, cycle250!],
      { atLeast: 12 },
    );
  });
});

describe('gas exchange', () => {
  test('carbohydrate begins at a ratio of 0.7036 and fat ends at 0.996, as the published table does', () => {
    // Péronnet & Massicotte 1991: ends of the table.
    expect(substratesBurned(1, 0.7036).carbohydrate).toBeCloseTo(0, 3);
    expect(substratesBurned(1, 0.7136).carbohydrate).toBeGreaterThan(0.04);
    expect(substratesBurned(1, 0.996).fat).toBeCloseTo(0, 2);
    expect(substratesBurned(1, 1.05).fat).toBe(0);
    expect(substratesBurned(1, 0.69).carbohydrate).toBe(0);
  });

  test('the values of the reference', () => {
    const { VO2, VCO2, cho, fat } = physiology.pm_example;
    const got = substratesBurned(VO2, VCO2);
    expectDigits([got.carbohydrate, got.fat], [cho, fat], { atLeast: 10 });
  });

  test('energy of oxygen: 15.7 and 12.0 L/h give 74.6 kcal/h (a printed worked example of the Lusk table)', () => {
    const { VO2_L_h, rq, kcal_h } = physiology.lusk_worked;
    // The straight line leaves the table by less than 0.1 % (its own rounding is 0.01 %).
    expect(Math.abs((VO2_L_h * kilocaloriesPerLitre(rq)) / kcal_h - 1)).toBeLessThan(1e-3);
    expect(kilocaloriesPerLitre(1)).toBeCloseTo(5.007, 3);
  });
});

describe('an hour at one intensity', () => {
  const cyclist = { sport: 'cycling', axis: 'power', mass: 75, lt1: 180, lt2: 250 } as const;

  test('75 kg at 250 W, the second threshold: 3.2 L/min, about 950 kcal and 169 to 192 g of carbohydrate', () => {
    const demand = demandAt({ ...cyclist, intensity: 250 })!;
    expect(demand.oxygen).toBeCloseTo(3.225, 3);
    // By hand at a ratio of 0.92: 4.919 kcal/L; 0.727 of the energy at 4.1 kcal/g, or 0.992 g/L.
    expect(Math.abs(demand.kilocalories.median / 952 - 1)).toBeLessThan(0.01);
    expect(demand.carbohydrate.median).toBeGreaterThan(169);
    expect(demand.carbohydrate.median).toBeLessThan(192);
    expect(demand.carbohydrate.high - demand.carbohydrate.low).toBeGreaterThan(50);
  });

  test('harder takes more of both, and above the second threshold that is said', () => {
    const [easy, hard] = [150, 280].map((intensity) => demandAt({ ...cyclist, intensity })!);
    expect(hard!.kilocalories.low).toBeGreaterThan(easy!.kilocalories.high);
    expect(hard!.carbohydrate.low).toBeGreaterThan(easy!.carbohydrate.median);
    expect([easy!.aboveSecond, hard!.aboveSecond]).toEqual([false, true]);
  });

  test('running 12 km/h is the equation at 200 m/min; measured oxygen uptake replaces it and is narrower', () => {
    const runner = { sport: 'running', axis: 'speed', mass: 60, lt1: 10, lt2: 13, intensity: 12 } as const;
    const byEquation = demandAt(runner)!;
    expect(byEquation.oxygen).toBeCloseTo((43.5 * 60) / 1000, 10);
    const measured = demandAt({ ...runner, measuredOxygen: 2610 })!;
    const width = ({ low, high }: { low: number; high: number }) => high - low;
    expect(width(measured.kilocalories)).toBeLessThan(width(byEquation.kilocalories));
  });

  test('no equation for rowing, nothing without a body mass', () => {
    expect(demandAt({ ...cyclist, sport: 'rowing', intensity: 200 })).toBeNull();
    expect(demandAt({ ...cyclist, mass: NaN, intensity: 200 })).toBeNull();
    expect(demandAt({ ...cyclist, sport: 'rowing', intensity: 200, measuredOxygen: 3000 })).not.toBeNull();
  });

  test('a triangle: its quantiles are those of scipy.stats.triang', () => {
    // triang(c=0.4, loc=0.82, scale=0.1).ppf([0.025, 0.5, 0.975])
    expectDigits(
      [0.025, 0.5, 0.975].map((p) => triangular([0.82, 0.86, 0.92], p)),
      [0.83, 0.8652277442494833, 0.9077525512860841],
      { atLeast: 12 },
    );
  });
});

describe('intake by length of the session', () => {
  test.each([
    [30, null],
    [45, null],
    [60, [0, 30]],
    [90, [30, 60]],
    [150, [30, 60]],
    [240, [60, 90]],
  ])('%i min', (minutes, grams) => {
    expect(intakeFor(minutes).gramsPerHour).toEqual(grams);
  });
});

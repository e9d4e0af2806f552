import type { StepTest } from '../../src/physiology/stepTest.ts';
import reference from '../references/step-tests/thresholds.json' with { type: 'json' };

type Given = Partial<Omit<StepTest, 'stages'>> & {
  heartRate?: (number | null)[];
  minutes?: (number | null)[];
  rpe?: (number | null)[];
};

/** A step test from its intensities and lactates; everything else unknown unless given. */
export function stepTest(
  intensity: readonly number[],
  lactate: readonly (number | null)[],
  { heartRate, minutes, rpe, ...rest }: Given = {},
): StepTest {
  return {
    sport: 'cycling',
    axis: 'power',
    stages: intensity.map((value, i) => ({
      row: i,
      intensity: value,
      lactate: lactate[i] ?? null,
      heartRate: heartRate?.[i] ?? null,
      rpe: rpe?.[i] ?? null,
      minutes: minutes?.[i] ?? null,
    })),
    restLactate: null,
    stageMinutes: null,
    bodyMass: null,
    notes: [],
    ...rest,
  };
}

type Levels = Record<'2.0' | '3.0' | '3.5' | '4.0', number | null>;
type Rises = Record<'0.5' | '1.0' | '1.5', number | null>;

/** What tests/references/step-tests/thresholds.py writes for one test; null where it found no answer. */
export interface ReferenceTest {
  intensity: number[];
  lactate: number[];
  raw: Levels;
  cubic: Levels;
  exponential: Levels | null;
  cubicLowestPlus: Rises;
  cubicFirstPlus: Rises;
  cubicLowestTwoPlus: Rises;
  dmaxMeasured: number | null;
  dmaxFitted: number | null;
  dmaxExponential: number | null;
  modifiedDmax: number | null;
  firstRise: number | null;
  logLog: number;
  logLogSse: number;
  minimumEquivalent: number;
  minimumEquivalentRaw: number;
  minimumEquivalentStep: number;
  minimumEquivalentPlus: number | null;
  threeSegmentSse?: number;
  heartRate?: number[];
  heartRateAtCubic4?: number;
}

export const REAL = Object.entries(reference.real as Record<string, ReferenceTest>);
export const INVENTED = Object.entries(reference.invented as Record<string, ReferenceTest>);

/** Test 10_pre of the real ones: eight stages, the one most outside numbers are about. */
export const TEN_PRE = stepTest(
  [125, 175, 225, 250, 275, 300, 325, 350],
  [0.93, 0.87, 0.86, 0.92, 1.2, 1.69, 2.6, 4.69],
  { heartRate: [115, 127, 138, 148, 154, 160, 164, 168], stageMinutes: 5 },
);

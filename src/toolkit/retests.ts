import type { Pairs } from '../data-in/pairs.ts';
import { readStepTest } from '../data-in/stages.ts';
import { repeatsOf } from '../numerics/repeats.ts';
import { type FittedCurve, fitCurve } from '../physiology/curves/index.ts';
import { usableReadings } from '../physiology/readings.ts';
import { type SamplerOptions, sampleThresholds } from '../physiology/samplingError.ts';
import type { LastStage, StepTest } from '../physiology/stepTest.ts';
import type { Repeatability } from '../physiology/training/repeatability.ts';
import {
  type Retest,
  retestOf,
  type Same,
  type SameConditions,
  type TestOfAthlete,
} from '../physiology/training/retest.ts';
import { type Choice, choice, type TextField, textField } from '../view/controls.ts';
import { usableIn } from './trainingTables.ts';
import type { StartedGrid } from './whoseData.ts';

type SameAnswer = 'yes' | 'no' | 'unknown';

const SAME_LABELS = [
  { value: 'yes', label: 'yes' },
  { value: 'no', label: 'no' },
  { value: 'unknown', label: 'not known' },
] as const;

/** Whether something was the same in an earlier test; what differed cannot be told from a change of the athlete. */
export const sameChoice = (what: string, value: SameAnswer): Choice<SameAnswer> =>
  choice({
    label: `Same ${what}`,
    value,
    options: SAME_LABELS,
    about: {
      says: 'What differed between two tests cannot be told from a change of the athlete: with no, they count as not comparable.',
      source: 'our rule',
    },
  });

/** When an earlier test was done, in words. */
export const whenField = (value: string): TextField =>
  textField({
    label: 'When',
    value,
    about: {
      says: 'What the earlier test is called in picture and table; nothing is computed from it.',
      source: 'our rule',
    },
  });

const SAME: Record<SameAnswer, Same> = { yes: true, no: false, unknown: null };

/** An earlier test of the athlete as its cell holds it. */
interface EarlierControls {
  when: Pick<TextField, 'value'>;
  earlier: Pick<StartedGrid, 'value' | 'start'>;
  meter: { value: SameAnswer };
  site: { value: SameAnswer };
  machine: { value: SameAnswer };
  state: { value: SameAnswer };
}

/** The latest test, and how it was read: earlier ones are read alike. */
interface LatestTest extends Omit<CurvedTest, 'name'> {
  test: StepTest;
  stages: Pick<StartedGrid, 'value' | 'start'>;
  lastStage: LastStage;
  options: SamplerOptions['options'];
  own?: Repeatability | null;
}

/** A test with the curve through it. */
export interface CurvedTest extends TestOfAthlete {
  curve: FittedCurve;
}

/** An earlier test beside what the comparison with the latest says. */
export interface ComparedTest {
  earlier: CurvedTest;
  retest: Retest;
}

/**
 * An earlier test laid beside the latest; null while its table is empty or left over from the demonstration.
 *
 * Random    the earlier test is drawn with a seed of its own, for the errors of two days are independent
 * Throws    InputError for what cannot be read
 */
export function compareWith(latest: LatestTest, controls: EarlierControls, nth = 1): ComparedTest | null {
  const { earlier, when } = controls;
  const table = usableIn(earlier, latest.stages);
  if (table === null) return null;
  const { test, sampling, curve, options, lastStage, own = null } = latest;
  const stepTest = readStepTest(table, { sport: test.sport, bodyMass: test.bodyMass });
  const readings = usableReadings(stepTest, { lastStage });
  const { error, seed, draws, intensityScale } = sampling;
  const methods = sampling.methods.map(({ method }) => method);
  const drawn = sampleThresholds(readings, {
    methods,
    options,
    error,
    draws,
    intensityScale,
    seed: seed + nth,
  });
  const before = {
    name: when.value.trim() || 'Earlier test',
    readings,
    sampling: drawn,
    curve: fitCurve(readings, { model: curve.model }),
  };
  return {
    earlier: before,
    retest: retestOf(before, { ...latest, name: 'This test' }, sameOf(controls), own),
  };
}

const sameOf = ({ meter, site, machine, state }: EarlierControls): SameConditions => ({
  meter: SAME[meter.value],
  site: SAME[site.value],
  machine: SAME[machine.value],
  state: SAME[state.value],
});

/** Fewest pairs that one's own repeatability is taken from (our rule). */
const LEAST_PAIRS = 5;

/** One's own repeatability from repeated tests; null with fewer than 5 pairs, and then the published one stands. */
export function ownRepeatability(pairs: Pairs | null): Repeatability | null {
  if (pairs === null || pairs.first.length < LEAST_PAIRS) return null;
  const { variation } = repeatsOf(pairs.first, pairs.second);
  return {
    variation,
    source: `your own repeats, ${pairs.first.length} pairs`,
    short: 'your own repeats',
  };
}

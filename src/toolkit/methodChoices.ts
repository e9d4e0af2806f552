import { BASELINE_NAMES } from '../physiology/baseline.ts';
import { MODELS } from '../physiology/curves/index.ts';
import { METHODS, methodById } from '../physiology/methods/index.ts';
import type { Claim, MethodOptions } from '../physiology/methods/method.ts';
import type { IntensityScale } from '../physiology/samplingTypes.ts';
import type { BaselineRule, CurveId } from '../physiology/stepTest.ts';
import { type Choice, choice, type NumberField, numberField } from '../view/controls.ts';
import { choiceOf, type Labels } from './choices.ts';

/** How the baseline lactate is defined, for methods that count from it. */
export const baselineChoice = (value: BaselineRule): Choice<BaselineRule> =>
  choiceOf('Baseline lactate', value, BASELINE_NAMES, {
    says: 'What methods count a rise from: the lowest of several readings is low partly by luck, the mean of two neighbours is steadier.',
    source: 'each stands in some paper; the one set at first is our rule',
  });

/** The curve drawn through the readings, and read by every method that takes a level off a curve. */
export function modelChoice(value: CurveId): Choice<CurveId> {
  const labels = Object.fromEntries(Object.entries(MODELS).map(([id, { name }]) => [id, name]));
  return choiceOf('Curve through the readings', value, labels as Labels<CurveId>, {
    says: 'Every method that takes a level off a curve reads this one: settle on it before the test, not by the threshold it gives.',
    source: 'common practice; none of them is a law of the body',
  });
}

/** Whether the figures hold for the device of the test, or for any exact one. */
export const scaleChoice = (value: IntensityScale): Choice<IntensityScale> =>
  choiceOf(
    'Figures hold for',
    value,
    { device: 'the device of the test', true: 'any exact device' },
    {
      says: 'Whoever trains on the device of the test need not mind its scale; for any other device its error is added.',
      source: 'our rule',
    },
  );

/** A choice among all methods that step tests are read by. */
export const stepMethodChoice = (value: string): Choice =>
  choice({
    label: 'Method',
    value,
    options: METHODS.filter((method) => method.protocol === 'step').map(({ id, name }) => ({
      value: id,
      label: name,
    })),
    about: {
      says: 'Shows how this method finds its answer on these readings; nothing else changes.',
      source: 'each method’s paper stands with its picture',
    },
  });

/** A choice among the methods for one claim. */
export function methodChoice(claim: Claim, value: string): Choice {
  // Bands need draws: what has to be asked for by name, or needs more than stages, is not among them by default.
  const options = METHODS.filter(
    (method) => method.claim === claim && method.protocol === 'step' && !method.off && !method.applies,
  ).map(({ id, name }) => ({
    value: id,
    label: name,
  }));
  const label = claim === 'LT1' ? 'First threshold by' : 'Second threshold by';
  return choice({
    label,
    value,
    options,
    help: 'Keep to one method from test to test.',
    about: {
      says: 'The method whose answer bands, sessions and the short answer are built on.',
      source: 'its paper stands below, under what the two methods claim; which is set at first is our rule',
    },
  });
}

/** Where the line of the modified Dmax begins. */
export const anchorChoice = (value: MethodOptions['anchor']): Choice<MethodOptions['anchor']> =>
  choiceOf(
    'Modified Dmax counts the first rise over',
    value,
    { 'previous-stage': 'the stage before', baseline: 'the baseline' },
    {
      says: 'The line begins at the stage before the first rise of 0.4 mmol/L, and papers differ in what that is a rise over.',
      source: methodById('modified-dmax').source,
    },
  );

/** The slope for the method of that name, on the axis of the test; null for the published one. */
export const slopeField = (value: number | null): NumberField =>
  numberField({
    label: 'Slope for the fixed slope',
    unit: 'mmol/L per W or km/h',
    min: 0,
    step: 0.01,
    value,
    help: 'Published for running only: 1.26 mmol/L per km/h.',
    about: {
      says: 'How steep the curve must be to count as the threshold; empty for the published slope.',
      source: methodById('fixed-slope').source,
    },
  });

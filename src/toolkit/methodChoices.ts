import { BASELINE_NAMES } from '../physiology/baseline.ts';
import { MODELS } from '../physiology/curves/index.ts';
import { METHODS } from '../physiology/methods/index.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { IntensityScale } from '../physiology/samplingTypes.ts';
import type { BaselineRule, CurveId } from '../physiology/stepTest.ts';
import { type Choice, choice } from '../view/controls.ts';
import { choiceOf, type Labels } from './choices.ts';

/** How the baseline lactate is defined, for methods that count from it. */
export const baselineChoice = (value: BaselineRule): Choice<BaselineRule> =>
  choiceOf(
    'Baseline lactate',
    value,
    BASELINE_NAMES,
    'The lowest of several readings is low partly by luck; the mean of two neighbours is steadier.',
  );

/** The curve drawn through the readings, and read by every method that takes a level off a curve. */
export function modelChoice(value: CurveId): Choice<CurveId> {
  const labels = Object.fromEntries(Object.entries(MODELS).map(([id, { name }]) => [id, name]));
  return choiceOf(
    'Curve through the readings',
    value,
    labels as Labels<CurveId>,
    'Settle on a curve before the test, never by which one gives the threshold you hoped for.',
  );
}

/** Whether the figures hold for the device of the test, or for any exact one. */
export const scaleChoice = (value: IntensityScale): Choice<IntensityScale> =>
  choiceOf(
    'Figures hold for',
    value,
    { device: 'the device of the test', true: 'any exact device' },
    'Whoever trains on the device of the test need not mind its scale.',
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
  return choice({ label, value, options, help: 'Keep to one method from test to test.' });
}

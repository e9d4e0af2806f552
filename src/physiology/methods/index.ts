import { InputError } from '../../base/inputError.ts';
import type { Readings } from '../stepTest.ts';
import { BASELINE_PLUS } from './baselinePlus.ts';
import { bisector } from './bisector.ts';
import { dmax, dmaxExponential } from './dmax.ts';
import { firstRise } from './firstRise.ts';
import { FIXED_LACTATE } from './fixedLactate.ts';
import { fixedSlope } from './fixedSlope.ts';
import { individualAnaerobic } from './individualAnaerobic.ts';
import { lactateMinimum } from './lactateMinimum.ts';
import { logLog } from './logLog.ts';
import type { Method, MethodOptions } from './method.ts';
import { MINIMUM_EQUIVALENT_PLUS, minimumEquivalent } from './minimumEquivalent.ts';
import { modifiedDmax, modifiedDmaxExponential } from './modifiedDmax.ts';
import { reverse } from './reverse.ts';
import { secondDerivative } from './secondDerivative.ts';
import { secondRise } from './secondRise.ts';
import { steadyStateBouts } from './steadyStateBouts.ts';
import { firstTurnPoint, secondTurnPoint } from './turnPoints.ts';
import { VISUAL } from './visual.ts';

export type { Answer } from './answer.ts';
export type { Estimator } from './estimators/estimator.ts';
export type { Claim, Method, MethodOptions } from './method.ts';

/** Every method there is, in the order that tables show them. */
export const METHODS: readonly Method[] = [
  firstRise,
  ...BASELINE_PLUS,
  ...FIXED_LACTATE,
  logLog,
  minimumEquivalent,
  ...MINIMUM_EQUIVALENT_PLUS,
  dmax,
  dmaxExponential,
  modifiedDmax,
  modifiedDmaxExponential,
  firstTurnPoint,
  secondTurnPoint,
  individualAnaerobic,
  fixedSlope,
  secondDerivative,
  secondRise,
  ...VISUAL,
  lactateMinimum,
  steadyStateBouts,
  reverse,
  bisector,
];

const BY_ID = new Map(METHODS.map((method) => [method.id, method]));

/** The method with this id; an InputError names those there are. */
export function methodById(id: string): Method {
  const method = BY_ID.get(id);
  if (method) return method;
  throw new InputError(`there is no method '${id}'; there are ${METHODS.map((m) => m.id).join(', ')}`, {
    field: 'method',
  });
}

/**
 * The methods with these ids, in the given order. Without ids, those that this kind of test is meant for and brings
 * everything for; the others would only say what is missing.
 */
export function methodsFor(
  readings: Readings,
  options: MethodOptions,
  ids?: readonly string[],
): readonly Method[] {
  if (ids) return ids.map(methodById);
  return METHODS.filter(
    (method) =>
      method.protocol === readings.protocol && !method.off && (method.applies?.(readings, options) ?? true),
  );
}

/** What a method needs from a test, in a few words each. */
export function needsOf({ protocol, minPoints, maximal, alsoNeeds = [] }: Method): string[] {
  const counted = protocol === 'bouts' ? 'bouts at constant intensity' : 'stages';
  return [`${minPoints} ${counted}`, ...(maximal ? ['a test to exhaustion'] : []), ...alsoNeeds];
}

import { InputError } from '../../base/inputError.ts';
import { BASELINE_PLUS } from './baselinePlus.ts';
import { dmax, dmaxExponential } from './dmax.ts';
import { firstRise } from './firstRise.ts';
import { FIXED_LACTATE } from './fixedLactate.ts';
import { logLog } from './logLog.ts';
import type { Method } from './method.ts';
import { minimumEquivalent, minimumEquivalentPlus } from './minimumEquivalent.ts';
import { modifiedDmax } from './modifiedDmax.ts';
import { firstTurnPoint, secondTurnPoint } from './turnPoints.ts';

export type { Answer, Claim, Estimator, Method, MethodOptions } from './method.ts';

/** Every method there is, in the order that tables show them. */
export const METHODS: readonly Method[] = [
  firstRise,
  ...BASELINE_PLUS,
  ...FIXED_LACTATE,
  logLog,
  minimumEquivalent,
  minimumEquivalentPlus,
  dmax,
  dmaxExponential,
  modifiedDmax,
  firstTurnPoint,
  secondTurnPoint,
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

/** The methods with these ids, in the given order; all of them when left out. */
export const methodsById = (ids?: readonly string[]): readonly Method[] => ids?.map(methodById) ?? METHODS;

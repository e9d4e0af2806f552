import { InputError } from '../base/inputError.ts';
import { methodById } from './methods/index.ts';
import type { Method } from './methods/method.ts';
import { CODE_NUMBERS } from './refusal.ts';
import type { MethodDraws, MethodSampling, SamplingResult } from './samplingTypes.ts';

/** Stages have no true-intensity value of their own: their answers stay nominal. */
export const isNominal = (method: Method): boolean => method.discrete;

/**
 * The draws of one method.
 *
 * Throws    InputError when they were made without it
 */
export function drawsOf({ joint }: SamplingResult, id: string): MethodDraws {
  return joint.methods.get(id) ?? madeWithout(id);
}

/**
 * What the draws say of one method.
 *
 * Throws    InputError when they were made without it
 */
export function samplingOf({ methods }: SamplingResult, id: string): MethodSampling {
  return methods.find(({ method }) => method === id) ?? madeWithout(id);
}

function madeWithout(id: string): never {
  throw new InputError(`these draws were made without the method '${id}': add it where they are made`, {
    field: 'method',
  });
}

/** Nominal threshold of one draw: −∞ or ∞ beyond the tested range, NaN where the method refused. */
export function thresholdIn({ x, code }: MethodDraws, d: number): number {
  if (code[d] === CODE_NUMBERS.E_ALREADY_ABOVE) return Number.NEGATIVE_INFINITY;
  return code[d] === CODE_NUMBERS.E_NOT_REACHED ? Number.POSITIVE_INFINITY : x[d]!;
}

/** A method's threshold in every draw, W or km/h, on the intensity scale of the result; see `thresholdIn`. */
export function thresholdDraws(result: SamplingResult, id: string): Float64Array {
  const draws = drawsOf(result, id);
  const scaled = result.intensityScale === 'true' && !isNominal(methodById(id));
  return Float64Array.from(draws.x, (_, d) => thresholdIn(draws, d) * (scaled ? result.joint.scale[d]! : 1));
}

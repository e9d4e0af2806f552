import { agreementOf } from '../physiology/agreement.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import { bareIntensity, type Display } from './display.ts';
import { answered } from './methodRows.ts';

/** One method's answer as a flat row, for tables made in a cell. */
interface MethodRow {
  method: string;
  claim: Claim;
  /** W or km/h. */
  intensity: number;
  /** The same, rounded as in every sentence: to what its error allows. */
  rounded: number;
  sd: number | null;
  heartRate: number | null;
  lactate: number;
}

/** Answers as flat rows, ready for a table library. */
export const methodRows = (result: SamplingResult, display: Display): MethodRow[] =>
  answered(result).map(({ name, claim, intensity, digits, sd, heartRate, lactate }) => ({
    method: name,
    claim,
    intensity,
    rounded: Number(bareIntensity(intensity, display, digits)),
    sd,
    heartRate,
    lactate,
  }));

/** Two methods for the same claim whose answers differ by more than the errors of the test explain. */
interface Disagreement {
  claim: Claim;
  lower: string;
  higher: string;
  /** Difference of the two answers, W or km/h. */
  difference: number;
}

/** Pairs of methods with the same claim that disagree beyond the errors of the test, by their names. */
export const disagreements = (result: SamplingResult): Disagreement[] =>
  agreementOf(result).flatMap(({ claim, pairs }) =>
    pairs
      .filter((pair) => pair.beyondError)
      .map(({ lower, higher, difference }) => ({
        claim,
        lower: methodById(lower).name,
        higher: methodById(higher).name,
        difference,
      })),
  );

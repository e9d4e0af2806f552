import type { Claim } from '../physiology/methods/method.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import { answered } from './methodRows.ts';

/** One method's answer as a flat row, for tables made in a cell. */
export interface MethodRow {
  method: string;
  claim: Claim;
  /** W or km/h. */
  intensity: number;
  sd: number | null;
  heartRate: number | null;
  lactate: number;
}

/** Answers as flat rows, ready for a table library. */
export const methodRows = (result: SamplingResult): MethodRow[] =>
  answered(result).map(({ name, claim, intensity, sd, heartRate, lactate }) => ({
    method: name,
    claim,
    intensity,
    sd,
    heartRate,
    lactate,
  }));

/** Two methods for the same claim whose answers differ by more than the errors of the test explain. */
export interface Disagreement {
  claim: Claim;
  lower: string;
  higher: string;
  /** Difference of the two answers, W or km/h. */
  difference: number;
}

/** Share of the joint draws that may go the other way before two methods count as agreeing (our rule). */
const OTHER_WAY = 0.025;
/** Fewest joint draws a verdict may rest on. */
const FEWEST = 100;

/**
 * Pairs of methods with the same claim that disagree beyond the errors of the test: one lies below the other in
 * all but 2.5 % of the draws. Both answer the same draws, so errors they share do not count as disagreement.
 */
export function disagreements(result: SamplingResult): Disagreement[] {
  const all = answered(result).toSorted((a, b) => a.intensity - b.intensity);
  return all.flatMap((lower, i) =>
    all
      .slice(i + 1)
      .filter((higher) => higher.claim === lower.claim && alwaysBelow(result, lower.id, higher.id))
      .map((higher) => ({
        claim: lower.claim,
        lower: lower.name,
        higher: higher.name,
        difference: higher.intensity - lower.intensity,
      })),
  );
}

function alwaysBelow({ joint }: SamplingResult, lower: string, higher: string): boolean {
  const [a, b] = [joint.methods.get(lower)!.x, joint.methods.get(higher)!.x];
  let both = 0;
  let otherWay = 0;
  for (let d = 0; d < joint.count; d++) {
    if (Number.isNaN(a[d]!) || Number.isNaN(b[d]!)) continue;
    both++;
    if (b[d]! <= a[d]!) otherWay++;
  }
  return both >= FEWEST && otherWay <= OTHER_WAY * both;
}

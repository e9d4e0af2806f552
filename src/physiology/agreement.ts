import { methodById } from './methods/index.ts';
import type { Claim, StageLengthEffect } from './methods/method.ts';
import type { JointDraws, SamplingResult } from './samplingTypes.ts';

/** Two methods of one claim, the one with the lower answer first. */
interface MethodPair {
  lower: string;
  higher: string;
  /** Difference of the two answers, W or km/h. */
  difference: number;
  /** Standard deviation of the difference over the draws that both answer; null for too few of them. */
  sd: number | null;
  /** Share of those draws in which the lower one is not below; null for too few. */
  otherWay: number | null;
  /** True when they lie further apart than the errors of the test explain. */
  beyondError: boolean;
}

/** How far the methods of one claim agree on one test. No average is made: they look for different things. */
export interface Agreement {
  claim: Claim;
  /** Ids of the methods with an answer, from the lowest answer up. */
  methods: string[];
  /** Lowest and highest answer, W or km/h. */
  lowest: number;
  highest: number;
  pairs: MethodPair[];
  /** Ids of methods that the errors of the test do not tell apart, from one to the next; the lowest group first. */
  clusters: string[][];
  /** Methods by where shorter stages are known to move them. */
  shorterStages: Record<StageLengthEffect, string[]>;
}

/** Share of the joint draws that may go the other way before two methods count as agreeing (our rule). */
const OTHER_WAY = 0.025;
/** Fewest joint draws a verdict may rest on. */
const FEWEST = 100;

const CLAIMS: readonly Claim[] = ['LT1', 'LT2', 'MLSS'];

/**
 * Agreement of the methods of each claim that has at least one answer.
 *
 * Model     a pair disagrees when one lies below the other in all but 2.5 % of the joint draws; both answer the same
 *           draws, so that errors they share do not count. Groups join methods with a neighbour they agree with
 *           (single linkage): the ends of a group may disagree
 * Source    our rule
 */
export const agreementOf = (result: SamplingResult): Agreement[] =>
  CLAIMS.flatMap((claim) => {
    const answers = answersOf(result, claim);
    return answers.length === 0 ? [] : [agreementAmong(claim, answers, result.joint)];
  });

interface MethodAnswer {
  id: string;
  intensity: number;
}

/** Methods of a claim with an answer that survives the errors of the test, lowest first. */
function answersOf({ methods }: SamplingResult, claim: Claim): MethodAnswer[] {
  const found = methods.flatMap(({ method, estimate, status }) =>
    estimate.refused || estimate.claim !== claim || status === 'not-shown' || methodById(method).spread
      ? []
      : [{ id: method, intensity: estimate.intensity }],
  );
  return found.sort((a, b) => a.intensity - b.intensity);
}

function agreementAmong(claim: Claim, answers: MethodAnswer[], joint: JointDraws): Agreement {
  const pairs = answers.flatMap((lower, i) =>
    answers.slice(i + 1).map((higher) => pairOf(lower, higher, joint)),
  );
  const methods = answers.map((answer) => answer.id);
  return {
    claim,
    methods,
    lowest: answers[0]!.intensity,
    highest: answers.at(-1)!.intensity,
    pairs,
    clusters: clustersOf(methods, pairs),
    shorterStages: byStageLength(methods),
  };
}

function pairOf(lower: MethodAnswer, higher: MethodAnswer, { count, methods }: JointDraws): MethodPair {
  const [a, b] = [methods.get(lower.id)!.x, methods.get(higher.id)!.x];
  let [both, otherWay, mean, squares] = [0, 0, 0, 0];
  for (let d = 0; d < count; d++) {
    const difference = b[d]! - a[d]!;
    if (Number.isNaN(difference)) continue;
    both++;
    if (difference <= 0) otherWay++;
    // Welford's update: no cancellation between large sums.
    const off = difference - mean;
    mean += off / both;
    squares += off * (difference - mean);
  }
  const known = both >= FEWEST;
  return {
    lower: lower.id,
    higher: higher.id,
    difference: higher.intensity - lower.intensity,
    sd: known ? Math.sqrt(squares / (both - 1)) : null,
    otherWay: known ? otherWay / both : null,
    beyondError: known && otherWay <= OTHER_WAY * both,
  };
}

/** Connected groups of methods under "not beyond error"; a pair that cannot be judged does not connect. */
function clustersOf(methods: readonly string[], pairs: readonly MethodPair[]): string[][] {
  const group = new Map(methods.map((id) => [id, [id]]));
  for (const { lower, higher, beyondError, otherWay } of pairs) {
    const [a, b] = [group.get(lower)!, group.get(higher)!];
    if (beyondError || otherWay === null || a === b) continue;
    a.push(...b);
    for (const id of b) group.set(id, a);
  }
  return [...new Set(group.values())].map((ids) => methods.filter((id) => ids.includes(id)));
}

function byStageLength(methods: readonly string[]): Agreement['shorterStages'] {
  const by: Agreement['shorterStages'] = { higher: [], lower: [], little: [], unknown: [] };
  for (const id of methods) by[methodById(id).shorterStages].push(id);
  return by;
}

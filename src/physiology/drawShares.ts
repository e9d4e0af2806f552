import type { Estimate } from './estimate.ts';
import { REFUSAL_CODES, type RefusalCode } from './refusalCodes.ts';
import type { SamplingStatus } from './samplingTypes.ts';

/** Share of draws without an answer above which a method has no interval. */
export const NOT_DETERMINED = 0.2;

/** Share of draws refused, by reason, from how often each number of a refusal occurs (at 0: answers). */
export function sharesByCode(counts: Int32Array): Partial<Record<RefusalCode, number>> {
  const draws = counts.reduce((sum, count) => sum + count, 0);
  const shares: Partial<Record<RefusalCode, number>> = {};
  REFUSAL_CODES.forEach((code, i) => {
    if (counts[i + 1]! > 0) shares[code] = counts[i + 1]! / draws;
  });
  return shares;
}

/** Our rule; a headline that is refused is never better than not determined. */
export function statusOf(refusedShare: number, estimate: Estimate): SamplingStatus {
  if (refusedShare > 0.5) return 'not-shown';
  if (refusedShare > NOT_DETERMINED || estimate.refused) return 'not-determined';
  return refusedShare > 0.05 ? 'caution' : 'shown';
}

/** Share of all draws that answer with each stage. */
export function stageShares(draws: Float64Array, stages: Float64Array): { x: number; share: number }[] {
  const counts = new Map<number, number>([...stages].map((x) => [x, 0]));
  for (const x of draws) if (!Number.isNaN(x)) counts.set(x, (counts.get(x) ?? 0) + 1);
  return [...counts].map(([x, count]) => ({ x, share: count / draws.length }));
}

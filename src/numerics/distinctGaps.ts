/** Distances that differ by less than rounding count as one. */
const ROUNDING = 1e-15;

/** Distances of neighbouring points, each once, and which of them each point has to the one before (the first: to 0). */
export function distinctGaps(z: Float64Array): { gaps: Float64Array; gapOf: Uint8Array } {
  const gaps: number[] = [];
  const gapOf = Uint8Array.from(z, (value, i) => {
    const gap = value - (z[i - 1] ?? 0);
    const known = gaps.findIndex((one) => Math.abs(one - gap) <= ROUNDING);
    return known >= 0 ? known : gaps.push(gap) - 1;
  });
  return { gaps: Float64Array.from(gaps), gapOf };
}

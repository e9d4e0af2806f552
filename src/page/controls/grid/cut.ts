import type { Span } from '../../../toolkit/files.ts';

/** Which end of which stretch. */
export interface End {
  index: number;
  side: 'start' | 'end';
}

/** A stretch is at least so long, s: an end is not pulled past the other one. */
const SHORTEST = 5;

/** The stretches with one end moved as far as it may go: within the recording and not into its neighbours. */
export function withEnd(
  spans: readonly Span[],
  { index, side }: End,
  second: number,
  length: number,
): Span[] {
  const { start, end } = spans[index]!;
  const least = side === 'start' ? (spans[index - 1]?.end ?? 0) : start + SHORTEST;
  const most = side === 'start' ? end - SHORTEST : (spans[index + 1]?.start ?? length);
  const moved = Math.round(Math.min(most, Math.max(least, second)));
  return spans.map((span, i) => (i === index ? { ...span, [side]: moved } : span));
}

/** The stretches with one of them divided in its middle; as they are where it is too short for that. */
export function withSplit(spans: readonly Span[], index: number): Span[] {
  const { start, end } = spans[index]!;
  const middle = Math.round((start + end) / 2);
  if (middle - start < SHORTEST || end - middle < SHORTEST) return [...spans];
  return spans.flatMap((span, i) =>
    i === index
      ? [
          { start, end: middle },
          { start: middle, end },
        ]
      : [span],
  );
}

/** The end nearest to a moment, or null when none is within `reach` seconds. */
export function nearestEnd(spans: readonly Span[], second: number, reach: number): End | null {
  const ends = spans.flatMap((span, index): (End & { away: number })[] => [
    { index, side: 'start', away: Math.abs(span.start - second) },
    { index, side: 'end', away: Math.abs(span.end - second) },
  ]);
  const nearest = ends.sort((a, b) => a.away - b.away)[0];
  return nearest && nearest.away <= reach ? { index: nearest.index, side: nearest.side } : null;
}

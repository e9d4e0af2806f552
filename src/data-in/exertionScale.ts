import type { ExertionScale, Rep } from '../physiology/training/session.ts';
import type { Column } from './columns.ts';
import type { Marks } from './marks.ts';

/** The scale that ratings are on: as the heading says, else by their size, which is noted. */
export function scaleOf(reps: readonly Rep[], column: Column | null, marks: Marks): ExertionScale | null {
  const ratings = reps.flatMap(({ readings }) =>
    readings.flatMap(({ row, rpe }) => (rpe === null ? [] : [{ row, rpe }])),
  );
  if (!column || ratings.length === 0) return null;
  const said = /6\s*[-–]\s*20/.test(column.text) ? '6-20' : /10/.test(column.text) ? 'CR10' : null;
  const scale = said ?? (ratings.some(({ rpe }) => rpe > 10) ? '6-20' : 'CR10');
  if (!said) marks.note(`the scale of "${column.text}" is taken as ${scale}`, column.index);
  const [low, high] = scale === '6-20' ? [6, 20] : [0, 10];
  for (const { row, rpe } of ratings)
    if (rpe < low || rpe > high)
      marks.problem(`a rating of ${rpe} is not possible; expected ${low} to ${high}`, column.index, row);
  return scale;
}

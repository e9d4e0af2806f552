import type { CellState } from '../../workbook/engineTypes.ts';
import { shortName } from '../../workbook/names.ts';
import { plain } from './inspect.ts';

/** Whether what a cell shows comes from a run before its present trouble. */
export const showsEarlier = ({ phase, shown }: CellState): boolean =>
  shown !== undefined && (phase === 'failed' || phase === 'waiting');

/** Why a cell has no result of its own now; `waitsFor` is the cell that holds it up, if there is one. */
export function troubleOf({ phase, problem }: CellState, waitsFor: string | null): string {
  const message = plain(problem?.message ?? '');
  if (problem?.notYet) return message;
  if (phase === 'failed') return `This cell failed: ${message}`;
  if (waitsFor !== null) return `This cell waits for ${shortName(waitsFor)}.`;
  return message;
}

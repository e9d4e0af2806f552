import { type GridValue, isEmpty } from '../base/grid.ts';
import type { Grid } from '../view/controls.ts';

/** A table control that knows what it started out with. */
export interface StartedGrid extends Grid {
  start: GridValue;
}

const sameRow = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((entry, i) => entry === b[i]);

const sameTable = (a: GridValue, b: GridValue): boolean =>
  sameRow(a.headings, b.headings) &&
  a.rows.length === b.rows.length &&
  a.rows.every((row, i) => sameRow(row, b.rows[i]!));

/** Whose readings a table holds: the invented ones that it starts out with, the reader's own, or nobody's yet. */
export function whoseData({
  value,
  start,
}: Pick<StartedGrid, 'value' | 'start'>): 'invented' | 'yours' | 'nobody' {
  if (isEmpty(value)) return 'nobody';
  return sameTable(value, start) ? 'invented' : 'yours';
}

const SENTENCES = {
  invented: '**The athlete and all readings are invented.**',
  yours:
    '**These readings were entered, not invented.** See that athlete, sport, body mass and protocol belong to them.',
  nobody: '**No readings yet:** enter them in the table below, and all that follows fills.',
} as const;

/** The same as a sentence of Markdown. */
export const sayWhoseData = (table: Pick<StartedGrid, 'value' | 'start'>): string =>
  SENTENCES[whoseData(table)];

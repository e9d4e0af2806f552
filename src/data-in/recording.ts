import { formatNumber } from '../base/format.ts';
import type { GridValue } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import { type Column, namedColumn } from './columns.ts';
import { decimalMark, readEntry } from './numbers.ts';

/** Headings of a time that runs on from row to row. */
export const ELAPSED_NAMES = /^elapsed( time)?\s*(\((s|sec|seconds|min|minutes|h:mm:ss)\))?$/i;
/** Shortest piece that a recording is cut into, s, and most pieces (our rule: a table that can still be looked through). */
const PIECE_SECONDS = 30;
const MOST_PIECES = 300;

/**
 * A recording with an elapsed time in each row as a list of pieces: their length, and the means of what was recorded. A
 * table without such a column is given back as it is.
 *
 * Model     pieces of 30 s, longer where there would be more than 300; a value missing throughout a piece stays missing
 * Throws    InputError when the elapsed time does not rise from row to row
 */
export function piecesOfRecording(grid: GridValue): GridValue {
  const elapsed = namedColumn(grid, ELAPSED_NAMES);
  if (!elapsed || grid.rows.length < 2) return grid;
  const seconds = secondsOf(grid, elapsed);
  const ends = [...seconds.slice(1), 2 * seconds.at(-1)! - seconds.at(-2)!];
  const length = Math.max(PIECE_SECONDS, (ends.at(-1)! - seconds[0]!) / MOST_PIECES);
  const others = [...grid.headings.keys()].filter((i) => i !== elapsed.index);
  const mark = decimalMark(grid.rows.flat());
  const pieces = new Map<number, number[]>();
  seconds.forEach((second, row) => {
    const piece = Math.floor((second - seconds[0]!) / length + 1e-9);
    pieces.set(piece, [...(pieces.get(piece) ?? []), row]);
  });
  const rows = [...pieces.values()].map((piece) => [
    formatNumber((ends[piece.at(-1)!]! - seconds[piece[0]!]!) / 60, 3),
    ...others.map((column) => meanOf(piece.map((row) => readEntry(grid.rows[row]![column]!, mark)))),
  ]);
  return { headings: ['time (min)', ...others.map((i) => grid.headings[i]!)], rows };
}

function secondsOf(grid: GridValue, { index, text }: Column): number[] {
  const mark = decimalMark(grid.rows.map((row) => row[index]!));
  const perUnit = /min/i.test(text) ? 60 : 1;
  const seconds = grid.rows.map((row) => {
    const entry = readEntry(row[index]!, mark);
    if (entry.kind === 'clock') return entry.seconds;
    return entry.kind === 'number' ? perUnit * entry.value : NaN;
  });
  const row = seconds.findIndex((value, i) => !(value > (seconds[i - 1] ?? -1)));
  if (row < 0) return seconds;
  throw new InputError(
    `row ${row + 1}, "${text}": "${grid.rows[row]![index]}" does not follow the time before it; expected times that rise from row to row`,
    { row, field: text },
  );
}

/** The mean of the numbers among entries, as text with a decimal point; empty without any. */
function meanOf(entries: ReturnType<typeof readEntry>[]): string {
  const values = entries.flatMap((entry) => (entry.kind === 'number' ? [entry.value] : []));
  if (values.length === 0) return '';
  return (values.reduce((sum, value) => sum + value, 0) / values.length).toFixed(1);
}

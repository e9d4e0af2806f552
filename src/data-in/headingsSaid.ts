import type { HeadingsSaid } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import type { Delimited } from './delimited.ts';
import { HEADING_SEARCH_ROWS, isBlank, MOST_COLUMNS, type RawRow } from './layout.ts';
import { joinUnitsRow } from './unitsRow.ts';
import { type Beginning, beginning, filled, isMeasured, splitByNumbers, tableFrom } from './unnamed.ts';

/** A line in which the headings of a text may be. */
export interface HeadingLine {
  line: number;
  entries: string[];
}

/**
 * The lines in which the headings of a text may be: above numbers, and no numbers themselves. None for a text without a
 * table.
 *
 * @example
 * headingLines('Test;indoors\nwatts;La\n100;1,1\n150;1,4').map(({ line }) => line) // [1, 2]
 */
export function headingLines(text: string): HeadingLine[] {
  const { rows } = splitByNumbers(text);
  return rows
    .slice(0, rows.findLastIndex(isMeasured) + 1)
    .filter((row) => filled(row).length >= 2 && !isMeasured(row))
    .slice(0, HEADING_SEARCH_ROWS)
    .map((row) => ({ line: row.line, entries: filled(row) }));
}

/** Where the rows of numbers begin, whatever words stand above them. */
function beginningOfNumbers(rows: readonly RawRow[]): Beginning {
  const { row, hasNames } = beginning(rows);
  const start = hasNames ? rows.findIndex((one, i) => i > row && !isBlank(one)) : row;
  return { row: start, hasNames: false };
}

/**
 * A table with its headings where somebody says they are; units in the line below join them.
 *
 * Throws    InputError for a text without rows of numbers, or without that line
 *
 * @example
 * readTableSaid('Test;indoors\nwatts;La\n100;1,1', 2).headings // ['watts', 'La']
 */
export function readTableSaid(text: string, said: HeadingsSaid, file?: string): Delimited {
  const where = file ? `${file}, ` : '';
  const unnamed = splitByNumbers(text);
  if (unnamed.measured === 0)
    throw new InputError(`${where}no rows of numbers found; expected a table`, { file });
  if (said === 'none') return orTooWide(tableFrom(unnamed, beginningOfNumbers(unnamed.rows), file), where);
  const row = unnamed.rows.findIndex((one) => one.line === said && !isBlank(one));
  if (row < 0) throw new InputError(`${where}line ${said}: nothing there; expected headings`, { file });
  return joinUnitsRow(orTooWide(tableFrom(unnamed, { row, hasNames: true }, file), where));
}

function orTooWide(table: Delimited | null, where: string): Delimited {
  if (!table) throw new InputError(`${where}a table of more than ${MOST_COLUMNS} columns`);
  return table;
}

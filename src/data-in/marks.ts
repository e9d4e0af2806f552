import type { GridMark, GridValue } from '../base/grid.ts';
import { InputError, type InputPlace } from '../base/inputError.ts';
import type { Delimited } from './delimited.ts';

/** Marks gathered while a table is read; a problem keeps the whole table from being used. */
export class Marks {
  readonly list: GridMark[] = [];

  problem(text: string, column = -1, row = -1) {
    this.list.push({ row, column, tone: 'problem', text });
  }
  note(text: string, column = -1, row = -1) {
    this.list.push({ row, column, tone: 'note', text });
  }
  get broken(): boolean {
    return this.list.some((mark) => mark.tone === 'problem');
  }
}

/** A table, with where each entry stands in the text it came from. */
export type Placed = GridValue & Partial<Pick<Delimited, 'headingPlace' | 'places' | 'notes'>>;

/** Where a mark stands, as far as the table knows: line and character in a text, row in a table on the page. */
function placeOf(mark: GridMark, grid: Placed, file: string | undefined): InputPlace {
  const at = mark.row < 0 ? grid.headingPlace : grid.places?.[mark.row];
  const column = mark.column < 0 ? undefined : at?.columns[mark.column];
  const field = mark.column < 0 ? undefined : at?.fields?.[mark.column] || grid.headings[mark.column];
  return {
    ...(file !== undefined && { file }),
    ...(at && { line: at.line }),
    ...(column !== undefined && { column }),
    ...(mark.row >= 0 && { row: mark.row }),
    ...(field !== undefined && { field }),
  };
}

/** 'test.csv, line 5, character 12, field 3 "lactate"', or 'row 4, "lactate"' where there is no text. */
function placeInWords({ file, line, column, row, field }: InputPlace, mark: GridMark): string {
  const heading = field !== undefined && row !== undefined ? `"${field}"` : '';
  const number = column === undefined ? '' : `field ${mark.column + 1}`;
  const parts = [
    file,
    line !== undefined && `line ${line}`,
    line === undefined && row !== undefined && `row ${row + 1}`,
    column !== undefined && `character ${column}`,
    [number, heading].filter(Boolean).join(' '),
  ];
  return parts.filter(Boolean).join(', ');
}

const withPlace = (mark: GridMark, place: InputPlace) => {
  const where = placeInWords(place, mark);
  return where === '' ? mark.text : `${where}: ${mark.text}`;
};

function noteInWords(mark: GridMark, grid: Placed): string {
  const text =
    mark.row < 0 ? mark.text : withPlace(mark, { ...placeOf({ ...mark, column: -1 }, grid, undefined) });
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** The first problem in reading order: headings, then row by row. */
const firstProblem = (marks: Marks): GridMark =>
  marks.list
    .filter((mark) => mark.tone === 'problem')
    .toSorted((a, b) => a.row - b.row || a.column - b.column)[0]!;

/**
 * What a table holds, with what had to be decided in sentences.
 *
 * Throws    InputError for the first problem that `read` marks
 */
export function readMarked<T>(
  grid: Placed,
  file: string | undefined,
  read: (marks: Marks) => T | null,
): { value: T; notes: string[] } {
  const marks = new Marks();
  const value = read(marks);
  if (value === null) {
    const problem = firstProblem(marks);
    const place = placeOf(problem, grid, file);
    throw new InputError(withPlace(problem, place), place);
  }
  const notes = marks.list.map((mark) => noteInWords(mark, grid));
  return { value, notes: [...(grid.notes ?? []), ...notes] };
}

/** Everything that `read` marks in a table. */
export function marksOf(read: (marks: Marks) => unknown): GridMark[] {
  const marks = new Marks();
  read(marks);
  return marks.list;
}

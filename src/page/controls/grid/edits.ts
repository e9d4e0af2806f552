import type { GridValue } from '../../../base/grid.ts';

/** A place in a grid; row -1 is the heading row. */
export interface Spot {
  row: number;
  column: number;
}

const replaced = <T>(items: readonly T[], at: number, item: T): T[] =>
  items.map((old, i) => (i === at ? item : old));
const inserted = <T>(items: readonly T[], at: number, item: T): T[] => [
  ...items.slice(0, at),
  item,
  ...items.slice(at),
];
const removed = <T>(items: readonly T[], at: number): T[] => items.filter((_, i) => i !== at);

const emptyRow = (grid: GridValue): string[] => grid.headings.map(() => '');

/** The entry at a spot, row -1 being the headings; '' beyond the table. */
export const entryAt = (grid: GridValue, { row, column }: Spot): string =>
  (row === -1 ? grid.headings[column] : grid.rows[row]?.[column]) ?? '';

/** The table with another text at a spot. */
export function withEntry(grid: GridValue, { row, column }: Spot, text: string): GridValue {
  if (row === -1) return { ...grid, headings: replaced(grid.headings, column, text) };
  return { ...grid, rows: replaced(grid.rows, row, replaced(grid.rows[row]!, column, text)) };
}

/** Where two tables of the same shape differ, when that is one entry; null otherwise. */
export function entryThatDiffers(a: GridValue, b: GridValue): Spot | null {
  if (
    a.rows === b.rows ||
    a.rows.length !== b.rows.length ||
    a.headings.some((text, i) => text !== b.headings[i])
  )
    return null;
  const spots = a.rows.flatMap((entries, row) =>
    entries === b.rows[row]
      ? []
      : entries.flatMap((text, column) => (text === b.rows[row]![column] ? [] : [{ row, column }])),
  );
  return spots.length === 1 ? spots[0]! : null;
}

/** The table with an empty row before row `at`, 0-based. */
export const withRow = (grid: GridValue, at: number): GridValue => ({
  ...grid,
  rows: inserted(grid.rows, at, emptyRow(grid)),
});

/** The table without row `at`, 0-based. */
export const withoutRow = (grid: GridValue, at: number): GridValue => ({
  ...grid,
  rows: removed(grid.rows, at),
});

/** The table with an empty column of that heading before column `at`, 0-based. */
export const withColumn = (grid: GridValue, at: number, heading: string): GridValue => ({
  headings: inserted(grid.headings, at, heading),
  rows: grid.rows.map((row) => inserted(row, at, '')),
});

/** The table without column `at`, 0-based. */
export const withoutColumn = (grid: GridValue, at: number): GridValue => ({
  headings: removed(grid.headings, at),
  rows: grid.rows.map((row) => removed(row, at)),
});

/** A block of text put in with its top left entry at the spot; rows and columns are added where it sticks out. */
export function withBlock(grid: GridValue, spot: Spot, block: readonly (readonly string[])[]): GridValue {
  const width = Math.max(grid.headings.length, spot.column + Math.max(...block.map((line) => line.length)));
  const height = Math.max(grid.rows.length, spot.row + block.length);
  const entry = (row: number, column: number): string =>
    block[row - spot.row]?.[column - spot.column] ?? entryAt(grid, { row, column });
  const line = (row: number) => Array.from({ length: width }, (_, column) => entry(row, column));
  return { headings: line(-1), rows: Array.from({ length: height }, (_, row) => line(row)) };
}

/** The nearest spot that exists. */
export const within = (grid: GridValue, { row, column }: Spot): Spot => ({
  row: Math.max(-1, Math.min(row, grid.rows.length - 1)),
  column: Math.max(0, Math.min(column, grid.headings.length - 1)),
});

/** The next spot in reading order, or null after the last. */
export function following(grid: GridValue, { row, column }: Spot, step: 1 | -1): Spot | null {
  const width = grid.headings.length;
  const place = (row + 1) * width + column + step;
  if (place < 0 || place >= (grid.rows.length + 1) * width) return null;
  return { row: Math.floor(place / width) - 1, column: place % width };
}

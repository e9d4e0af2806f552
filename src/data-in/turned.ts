import type { Delimited } from './delimited.ts';
import { readHeading } from './headings.ts';

const isNumber = (entry: string) => /^\d+([.,]\d+)?$/.test(entry.trim());

/**
 * A table of stages that lies on its side, with a line for each quantity and a column for each stage, turned; any other as it
 * is. Its rows have no line of their own any longer.
 *
 * @example
 * turned({ headings: ['power', '100', '150'], rows: [['lactate', '1.1', '1.6']], notes: [], places: [], headingPlace: { line: 1, columns: [] } }).rows // [['100', '1.1'], ['150', '1.6']]
 */
export function turned(table: Delimited): Delimited {
  const lines = [table.headings, ...table.rows];
  const names = lines.map(([first = '']) => first);
  const meanings = names.flatMap((name) => readHeading(name)?.meaning ?? []);
  const liesOnItsSide = table.headings.filter(isNumber).length > 1;
  if (!liesOnItsSide || meanings.length < 2 || !meanings.includes('lactate')) return table;
  const rows = table.headings.slice(1).map((_, i) => lines.map((line) => line[i + 1]!));
  return { ...table, headings: names, rows, places: [], isTurned: true };
}

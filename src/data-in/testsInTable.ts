import type { GridValue } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import { Roster, type RosterTest } from './roster.ts';

/** One of the tests that stand in a table together. */
export interface TestInTable {
  id: string;
  grid: GridValue;
  /** How many rows of the table it takes. */
  rows: number;
}

function allTests({ headings, rows }: GridValue): RosterTest[] {
  const roster = new Roster(headings);
  const tests = rows.map((row, i) => roster.add(row, i + 1));
  return [...tests, roster.end()].filter((test) => test !== null);
}

/** Parts of a test that do not stand together in a table of a row for each stage. */
function joined(tests: readonly RosterTest[]): RosterTest[] {
  const ids = [...new Set(tests.map(({ id }) => id))];
  return ids.map((id) => {
    const parts = tests.filter((test) => test.id === id);
    const rows = parts.flatMap(({ grid }) => grid.rows);
    return { ...parts[0]!, grid: { headings: parts[0]!.grid.headings, rows } };
  });
}

/**
 * The tests of a table that holds several, for somebody to take one; none for a table of one test. A table with a row for
 * each test holds tests even when it is one.
 *
 * @example
 * testsInTable({ headings: ['id', 'lactate 100 W', 'lactate 150 W'], rows: [['a', '1', '2']] })[0].grid.rows // [['', '100 W', '1'], ['', '150 W', '2']]
 */
export function testsInTable(table: GridValue): TestInTable[] {
  try {
    const roster = new Roster(table.headings);
    const found = allTests(table);
    const tests = roster.isWide ? found : joined(found);
    // A name of its own in every row only names the stages.
    if (!roster.isWide && (tests.length < 2 || tests.length === table.rows.length)) return [];
    return tests.map(({ id, grid }, i) => ({
      id: id || `test ${i + 1}`,
      grid: { headings: grid.headings, rows: grid.rows },
      rows: roster.isWide ? 1 : grid.rows.length,
    }));
  } catch (error) {
    if (error instanceof InputError) return [];
    throw error;
  }
}

import { describe, expect, test } from 'vitest';
import type { GridValue } from '../../src/base/grid.ts';
import { testsInTable } from '../../src/data-in/testsInTable.ts';

/** Headings and rows with a bar between entries. */
const table = (...lines: string[]): GridValue => {
  const [headings = [], ...rows] = lines.map((line) => line.split('|'));
  return { headings, rows };
};

describe('the tests in a table', () => {
  test('of a row for each stage, wherever the rows stand', () => {
    const mixed = table(
      'athlete|power|lactate',
      'A|100|1.0',
      'B|100|1.2',
      'A|150|1.4',
      'B|150|1.9',
      'B|200|3.3',
    );
    expect(testsInTable(mixed)).toEqual([
      { id: 'A', rows: 2, grid: table('power|lactate', '100|1.0', '150|1.4') },
      { id: 'B', rows: 3, grid: table('power|lactate', '100|1.2', '150|1.9', '200|3.3') },
    ]);
  });

  test('of a row for each test', () => {
    const wide = table('id|lactate 100 W|lactate 150 W|HR 150 W', 'A|1.0|1.4|130', 'B|1.2||131');
    expect(testsInTable(wide)).toEqual([
      { id: 'A', rows: 1, grid: table('stage|intensity (W)|lactate|HR', '|100 W|1.0|', '|150 W|1.4|130') },
      { id: 'B', rows: 1, grid: table('stage|intensity (W)|lactate|HR', '|100 W|1.2|', '|150 W||131') },
    ]);
  });

  test.each([
    ['one test with its date', table('date|power|lactate', '1 May|100|1.0', '1 May|150|1.4')],
    ['a name for each stage', table('id|power|lactate', 'a|100|1.0', 'b|150|1.4')],
    ['no lactate', table('athlete|power', 'A|100', 'A|120', 'B|100')],
    ['no names', table('power|lactate', '100|1.0', '150|1.4')],
    ['no rows', table('athlete|power|lactate')],
  ])('are none in a table with %s', (_, grid) => {
    expect(testsInTable(grid)).toEqual([]);
  });
});

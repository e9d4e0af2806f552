import { describe, expect, test } from 'vitest';
import { readHeading } from '../../src/data-in/headings.ts';
import { type ColumnUse, columnGuesses, MAPPABLE, reportOf, withMapping } from '../../src/data-in/mapping.ts';
import { QUANTITIES } from '../../src/data-in/quantities.ts';
import { checkStepTest, readStageTable, readStepTest } from '../../src/data-in/stages.ts';

const TABLE = 'Belastung;HF;Laktat;lactate\n100;110;1,0;9\n150;131;1,4;9\n200;155;3,1;9\n';
const MAPPING: (ColumnUse | undefined)[] = [
  { meaning: 'power', unit: 'W' },
  { meaning: 'heartRate', unit: null },
  { meaning: 'lactate', unit: null },
  'ignore',
];

describe('a mapping', () => {
  test('says what a reader could not know, and what it should leave alone', () => {
    const table = readStageTable(TABLE);
    expect(() => readStepTest(table)).toThrow('no column of intensity');
    const { stages } = readStepTest(withMapping(table, MAPPING));
    expect(stages.map(({ intensity, heartRate, lactate }) => [intensity, heartRate, lactate])).toEqual([
      [100, 110, 1],
      [150, 131, 1.4],
      [200, 155, 3.1],
    ]);
  });

  test('corrects a unit', () => {
    const table = readStageTable('speed (km/h);lactate\n3;1\n4;2\n');
    const { stages } = readStepTest(withMapping(table, [{ meaning: 'speed', unit: 'm/s' }]));
    expect(stages.map(({ intensity }) => intensity)).toEqual([10.8, 14.4]);
  });

  test('with nothing in it changes nothing; places stay', () => {
    const table = readStageTable('power;lactate\n100;1\n');
    expect(withMapping(table, [])).toEqual(table);
    expect(() => readStepTest(withMapping(readStageTable('a;lactate\nx;1\n'), MAPPING.slice(0, 1)))).toThrow(
      /^line 2, character 1, field 1 "power \(W\)": "x" is not a number/,
    );
  });

  test.each([
    [{ meaning: 'power', unit: 'bpm' }, '"bpm" is no unit of power; expected W'],
    [{ meaning: 'constructor', unit: null }, '"constructor" is nothing a column can be said to hold'],
  ])('%j is refused', (use, sentence) => {
    expect(() => withMapping(readStageTable(TABLE), [use as ColumnUse])).toThrow(sentence);
  });

  test('every choice reads as itself, and every ignored heading as nothing', () => {
    for (const { meaning, units } of MAPPABLE)
      for (const unit of [null, ...units]) {
        const { headings } = withMapping({ headings: ['x'], rows: [] }, [{ meaning, unit }]);
        const read = readHeading(headings[0]!);
        expect(read?.meaning).toBe(meaning);
        if (unit !== null) expect(read?.unit?.label).toBe(unit);
      }
    for (const { names, units } of Object.values(QUANTITIES))
      for (const name of [...names, ...Object.keys(units), ...names.map((one) => `${one} (W)`)])
        expect(readHeading(withMapping({ headings: [name], rows: [] }, ['ignore']).headings[0]!)).toBeNull();
  });
});

test('guesses show what each column was taken for, with examples', () => {
  expect(columnGuesses(readStageTable('power (W);pace;xyz\n100;;\n150;4:00;b\n'))).toEqual([
    { heading: 'power (W)', use: { meaning: 'power', unit: 'W' }, examples: ['100', '150'] },
    { heading: 'pace', use: { meaning: 'pace', unit: null }, examples: ['4:00'] },
    { heading: 'xyz', use: null, examples: ['b'] },
  ]);
});

test('the report of a table: columns, rows that are no stages, lines around it', () => {
  const table = readStageTable(
    'Indoors\nstage;power (W);speed;lactate;HR;shoes\nrest;;;1,1;;\n1;100;8;1,0;110;a\nbreak;;;;;\n2;150;9;1,4;999;b\n',
  );
  const report = reportOf(table, checkStepTest(table));
  expect(report.columns.map(({ use, remarks }) => [use !== 'ignore' && use?.meaning, remarks])).toEqual([
    ['stage', []],
    ['power', [expect.stringContaining('taken as cycling')]],
    ['speed', ['"speed" is not used beside "power (W)"']],
    ['lactate', []],
    ['heartRate', []],
    [undefined, []],
  ]);
  expect(report.rows).toEqual({
    total: 4,
    remarked: [
      { row: 2, line: 5, remarks: ['holds no measurement and is passed over'] },
      { row: 3, line: 6, remarks: [expect.stringContaining('"999" is not possible')] },
    ],
  });
  expect(report.problems).toHaveLength(1);
  expect(report.notes).toEqual(['Indoors', 'not used: "shoes"']);
});

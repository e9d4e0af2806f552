import { readdirSync, readFileSync } from 'node:fs';
import { zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { numberText } from '../../src/data-in/cellFormats.ts';
import { stepTestFromText } from '../../src/data-in/fromText.ts';
import { readRosterTest } from '../../src/data-in/roster.ts';
import { readSpreadsheet } from '../../src/data-in/spreadsheet.ts';
import type { StepTest } from '../../src/physiology/stepTest.ts';
import { rosterFromText } from './texts.ts';

const folder = new URL('files/spreadsheets/', import.meta.url);
const read = (name: string, sheet?: string) =>
  readSpreadsheet(readFileSync(new URL(name, folder)), name, sheet);

interface Expected {
  sheet?: string;
  wanted?: string;
  x: number[];
  lactate: (number | null)[];
  heartRate?: (number | null)[];
  minutes?: number[];
  /** Parts of the notes of the workbook and of its table. */
  notes?: string[];
}

const THREE = { x: [100, 150, 200], lactate: [1, 1.4, 3.1] };
const RATES = { ...THREE, heartRate: [110, 131, 155] };

/** What each table of one test says, as make.py beside the files wrote it. */
const TESTS: Record<string, Expected> = {
  'plain.xlsx': { ...RATES, sheet: 'Test' },
  'merged-title-and-units-row.xlsx': { ...RATES, notes: ['Step test of an invented athlete'] },
  'times-and-dates.xlsx': { x: [60 / 5.5, 12, 60 / 4.5], lactate: THREE.lactate, minutes: [4, 4, 4] },
  'formulas-with-values.xlsx': RATES,
  'three-sheets.xlsx': { ...RATES, sheet: 'Winter & spring', notes: ['the first with entries of 3'] },
  'table-far-from-the-corner.xlsx': RATES,
  'odd-values.xlsx': { ...THREE, lactate: [0.3, 1.4, 3.1], heartRate: [110, null, 155] },
  'office-decimal-comma.xlsx': {
    ...THREE,
    lactate: [1.05, 1.4, 3.1],
    minutes: [4, 4, 2.5],
    notes: ['Leistung in Watt: siehe unten'],
  },
  'by-hand.xlsx': RATES,
  'sizes-of-64-bits.xlsx': RATES,
};
const OTHERS = ['formulas-without-values.xlsx', 'roster-merged-names.xlsx', 'roster-wide.xlsx'];

const column = (from: StepTest, key: 'lactate' | 'heartRate' | 'minutes') =>
  from.stages.map((stage) => stage[key]);

test('every workbook has an expected reading', () => {
  const files = readdirSync(folder).filter((name) => name.endsWith('.xlsx'));
  expect(files.sort()).toEqual([...Object.keys(TESTS), ...OTHERS].sort());
});

test.each(Object.entries(TESTS))('%s', (name, expected) => {
  const { text, sheet, notes } = read(name);
  const step = stepTestFromText(text, { file: name });
  step.stages.forEach(({ intensity }, i) => {
    expect(intensity).toBeCloseTo(expected.x[i]!, 9);
  });
  expect(column(step, 'lactate')).toEqual(expected.lactate);
  if (expected.sheet) expect(sheet).toBe(expected.sheet);
  if (expected.heartRate) expect(column(step, 'heartRate')).toEqual(expected.heartRate);
  if (expected.minutes) expect(column(step, 'minutes')).toEqual(expected.minutes);
  for (const part of expected.notes ?? [])
    expect([...notes, ...step.notes].filter((note) => note.includes(part))).toHaveLength(1);
});

test('formulas without stored values are empty, which is said', () => {
  const { text, notes } = read('formulas-without-values.xlsx');
  expect(notes).toEqual([
    '3 formulas have no stored value and read as empty, the first in row 3, column 1; open and save the file in a spreadsheet to store them.',
  ]);
  expect(() => stepTestFromText(text, { file: 'f.xlsx' })).toThrow(
    'f.xlsx, line 3, character 1, field 1 "power (W)": no intensity',
  );
});

test('names over merged rows, and a table with a row for each athlete', () => {
  const tests = (name: string) =>
    rosterFromText(read(name).text).map((one) => [one.id, column(readRosterTest(one), 'lactate')]);
  expect(tests('roster-merged-names.xlsx')).toEqual([
    ['A1', THREE.lactate],
    ['B2', THREE.lactate],
  ]);
  expect(tests('roster-wide.xlsx')).toEqual([
    ['p1', THREE.lactate],
    ['p2', [1.1, 1.9]],
  ]);
});

test('a sheet by its name, and one that is not there', () => {
  const { sheets, text } = read('three-sheets.xlsx', 'Autumn');
  expect(sheets).toEqual(['Cover', 'Winter & spring', 'Autumn']);
  expect(stepTestFromText(text).stages[0]!.intensity).toBe(120);
  expect(() => read('three-sheets.xlsx', 'Summer')).toThrow(
    'no sheet "Summer"; there are "Cover", "Winter & spring", "Autumn"',
  );
});

/** ECMA-376 part 1, 18.8.30 and 18.17.4: 1 January 2008 is day 39448; the shares of a day are exact. */
test.each([
  ['39448', 'date', '2008-01-01'],
  ['39448.5', 'date', '2008-01-01 12:00:00'],
  ['0.1875', { clock: 'h:mm' }, '4:30'],
  ['0.003125', { clock: 'mm:ss' }, '4:30'],
  ['0.003125', { clock: 'h:mm:ss' }, '0:04:30'],
  ['1.5', { clock: 'h:mm' }, '36:00'],
  ['0.30000000000000004', 'number', '0.3'],
  ['1e-3', 'number', '0.001'],
  ['x', 'number', 'x'],
  ['1e300', 'date', '1e+300'],
] as const)('%s as %j is %s', (stored, format, text) => {
  expect(numberText(stored, format)).toBe(text);
});

const bytes = (text: string) => new TextEncoder().encode(text);
const RELATIONS = '<Relationships><Relationship Id="r1" Target="worksheets/sheet1.xml"/></Relationships>';
const WORKBOOK = '<workbook><sheets><sheet name="S" r:id="r1" xmlns:r="r"/></sheets></workbook>';

const workbook = (sheet: Uint8Array, others: Record<string, Uint8Array> = {}) =>
  zipSync({
    'xl/workbook.xml': bytes(WORKBOOK),
    'xl/_rels/workbook.xml.rels': bytes(RELATIONS),
    'xl/worksheets/sheet1.xml': sheet,
    ...others,
  });

const sheetOf = (rows: string) => bytes(`<worksheet><sheetData>${rows}</sheetData></worksheet>`);
const cell = (reference: string, text: string) =>
  `<c r="${reference}" t="inlineStr"><is><t>${text}</t></is></c>`;

function refusal(file: Uint8Array): string {
  try {
    readSpreadsheet(file, 'f.xlsx');
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return (error as Error).message;
  }
  return expect.unreachable('it was read');
}

describe('hostile workbooks', () => {
  test('one that unpacks to far more than a table is refused unread', () => {
    const bomb = workbook(new Uint8Array(80e6));
    expect(bomb.length).toBeLessThan(200_000);
    expect(refusal(bomb)).toBe('f.xlsx: unpacks to over 64 MB; expected a workbook with the test alone');
  });

  test('one that lies about its size gets no more room than it says', () => {
    const lying = workbook(sheetOf(`<row>${cell('A1', 'x'.repeat(500_000))}</row>`));
    const view = new DataView(lying.buffer);
    // The unpacked size stands in each entry of the directory at the end.
    for (let i = 0; i < lying.length - 4; i++)
      if (view.getUint32(i, true) === 0x02014b50) view.setUint32(i + 24, 40, true);
    expect(refusal(lying)).toMatch(/^f\.xlsx: its part “xl\/workbook.xml” unpacks to more than the 40 bytes/);
  });

  test('entities that unfold are refused', () => {
    const lol = `<!DOCTYPE s [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]><worksheet>&b;</worksheet>`;
    expect(refusal(workbook(bytes(lol)))).toMatch(/declares a document type/);
  });

  test('formula cells are never computed, whatever they say', () => {
    const sheet = sheetOf('<row r="1"><c r="A1"><f>HYPERLINK("x","y")</f><v>5</v></c></row>');
    expect(readSpreadsheet(workbook(sheet), 'f.xlsx').text).toBe('5');
  });

  test('headings named like properties of every object stay headings', () => {
    const sheet = sheetOf(`<row r="1">${cell('A1', '__proto__')}${cell('B1', 'constructor')}</row>`);
    const { text } = readSpreadsheet(workbook(sheet), 'f.xlsx');
    expect(text).toBe('__proto__\tconstructor');
    expect(() => stepTestFromText(text, { file: 'f' })).toThrow('no row of headings found');
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  });

  test('a cell at the end of the world', () => {
    expect(refusal(workbook(sheetOf(`<row>${cell('XFD1048576', 'x')}</row>`)))).toBe(
      'f.xlsx, sheet "S": cells in row 1048576, column 16384; expected a table of at most 200000 rows and 1000 columns',
    );
  });

  test('a merged range over everything fills the table and no more', () => {
    const sheet = bytes(
      `<worksheet><sheetData><row r="1">${cell('A1', 'x')}</row><row r="3">${cell('C3', 'y')}</row></sheetData><mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells></worksheet>`,
    );
    expect(readSpreadsheet(workbook(sheet), 'f.xlsx').text).toBe('x\tx\tx\nx\tx\tx\nx\tx\tx');
  });

  test('a million rows', () => {
    const rows = '<row><c><v>1</v></c></row>'.repeat(1_000_000);
    expect(refusal(workbook(sheetOf(rows)))).toMatch(/cells in row 200001, column 1; expected a table/);
  });

  test.each<[string, Uint8Array, string]>([
    ['no archive', bytes('PK\x03\x04nonsense'), 'a damaged or encrypted archive'],
    ['cut off', workbook(sheetOf('')).slice(0, -30), 'a damaged or encrypted archive'],
    ['another kind of archive', zipSync({ 'a.txt': bytes('x') }), 'an archive without sheets'],
    ['no entries', workbook(sheetOf('')), 'no sheet with entries'],
    ['cut XML', workbook(bytes('<worksheet><sheetData>')), 'damaged XML'],
  ])('%s', (_, file, sentence) => {
    expect(refusal(file)).toContain(sentence);
  });
});

import { describe, expect, test } from 'vitest';
import { COLUMN_KINDS } from '../../src/data-in/columnKinds.ts';
import { readHeading } from '../../src/data-in/headings.ts';
import { columnsTaken, usesByUnit, withUse } from '../../src/data-in/mapping.ts';
import { QUANTITIES } from '../../src/data-in/quantities.ts';
import { readStageTable, readStepTest } from '../../src/data-in/stages.ts';

const { stages } = COLUMN_KINDS;
const headed = (...headings: string[]) => ({ headings, rows: [] });

describe('what somebody says of a column', () => {
  test('is read by the same reader, and places stay', () => {
    const table = readStageTable('Belastung;lactate\nx;1\n100;1\n');
    const said = { ...table, ...withUse(table, stages, { column: 0, use: { word: 'power' } }) };
    expect(() => readStepTest(said)).toThrow(
      /^line 2, character 1, field 1 "power \(W\)": "x" is not a number/,
    );
  });

  test('corrects a unit, and leaves the table it was given as it was', () => {
    const table = readStageTable('speed (km/h);lactate\n3;1\n4;2\n');
    const { headings } = withUse(table, stages, { column: 0, use: { word: 'speed', unit: 'm/s' } });
    expect(headings).toEqual(['speed (m/s)', 'lactate']);
    expect(table.headings[0]).toBe('speed (km/h)');
  });

  test('takes the unit that the heading names; says none where several are possible', () => {
    const said = (heading: string, word: string) =>
      withUse(headed(heading), stages, { column: 0, use: { word } }).headings[0];
    expect(said('Geschwindigkeit [m/s]', 'speed')).toBe('speed (m/s)');
    expect(said('Geschwindigkeit', 'speed')).toBe('speed');
    expect(said('HF', 'heart rate')).toBe('heart rate (bpm)');
    expect(said('not used: Dauer (s)', 'duration')).toBe('duration (s)');
  });

  test('holds for one column: another is not used any longer, but stages may be numbered twice', () => {
    const table = headed('HR mean', 'HR end', 'stage', 'x');
    const use = (column: number, word: string) => withUse(table, stages, { column, use: { word } }).headings;
    expect(use(3, 'heart rate')).toEqual([
      'not used: HR mean',
      'not used: HR end',
      'stage',
      'heart rate (bpm)',
    ]);
    expect(use(3, 'stage')).toEqual(['HR mean', 'HR end', 'stage', 'stage']);
  });

  test('the heading of the file comes back when the column is not to be used', () => {
    const table = headed('power (W)', 'lactate');
    const { headings } = withUse(table, stages, { column: 0, use: null, sources: ['Leistung', 'Laktat'] });
    expect(headings).toEqual(['not used: Leistung', 'lactate']);
    expect(withUse({ headings, rows: [] }, stages, { column: 0, use: null }).headings).toEqual(headings);
  });

  test.each([
    [{ word: 'power', unit: 'bpm' }, '"bpm" is no unit of power; expected W'],
    [{ word: 'stage', unit: 'W' }, '"W" is no unit of stage; expected none'],
    [{ word: 'constructor' }, '"constructor" is nothing a column here can be said to hold'],
    [{ word: 'speed', unit: 'constructor' }, '"constructor" is no unit of speed'],
  ])('%j is refused', (use, sentence) => {
    expect(() => withUse(headed('x'), stages, { column: 0, use })).toThrow(sentence);
  });
});

describe('every choice', () => {
  test.each(Object.entries(COLUMN_KINDS))('of %s reads as itself', (_, kinds) => {
    for (const { word, headings } of kinds)
      for (const unit of Object.keys(headings)) {
        const made = withUse(headed('x'), kinds, { column: 0, use: { word, unit } });
        expect(columnsTaken(made, kinds)[0]!.use).toEqual({ word, unit });
      }
  });

  test.each(Object.entries(COLUMN_KINDS))(
    'of %s can be told not to be used, whatever it is called',
    (_, kinds) => {
      const own = kinds.flatMap(({ headings }) => Object.values(headings));
      const names = Object.values(QUANTITIES).flatMap((quantity) => [
        ...quantity.names,
        ...Object.keys(quantity.units),
        ...quantity.names.map((name) => `${name} (W)`),
      ]);
      for (const name of [...own, ...names]) {
        const made = withUse(headed(name), kinds, { column: 0, use: null });
        expect(columnsTaken(made, kinds)[0]!.use).toBeNull();
        expect(readHeading(made.headings[0]!)).toBeNull();
      }
    },
  );
});

test('what columns are taken for, with entries to know them by', () => {
  expect(columnsTaken(readStageTable('power (W);pace;xyz\n100;;\n150;4:00;b\n'), stages)).toEqual([
    { heading: 'power (W)', use: { word: 'power', unit: 'W' }, examples: ['100', '150'] },
    { heading: 'pace', use: { word: 'pace', unit: '' }, examples: ['4:00'] },
    { heading: 'xyz', use: null, examples: ['b'] },
  ]);
});

test('a unit gives an unknown heading away, but no maximum, no rate that may be another, and not two of them', () => {
  const words = (...headings: string[]) =>
    usesByUnit(headed(...headings), stages).map((use) => use && `${use.word} ${use.unit}`);
  expect(words('Leistung (W)', 'Laktat [mmol/l]', 'Tempo in min/km', 'Puls bpm')).toEqual([
    'power W',
    'lactate mmol/L',
    'pace min/km',
    'heart rate bpm',
  ]);
  expect(words('Pmax (W)', 'cadence (1/min)', 'Atmung (/min)')).toEqual([null, null, null]);
  expect(words('links (W)', 'rechts (W)')).toEqual([null, null]);
  expect(words('power', 'Leistung (W)')).toEqual([null, null]);
  expect(words('not used: Leistung (W)')).toEqual([null]);
});

import { describe, expect, test } from 'vitest';
import { makeWorkbook, openWorkbook } from './workbook.ts';

const OTHERS = {
  curve: 'export const curve = 1; export const fit = 2; export interface Fit { a: 1 }',
  readings: 'export const readings = [];',
};

async function problemOf(text: string) {
  const workbook = await openWorkbook({ a: text, ...OTHERS });
  return workbook.state('a');
}

describe('imports that lead nowhere say what there is', () => {
  test.each([
    [
      `import { x } from './curv.ts';`,
      'waiting',
      'This cell waits for curv, which does not exist.',
      'There are curve, readings.',
      1,
    ],
    [
      `import { curv } from './curve.ts';`,
      'failed',
      "'./curve.ts' does not export 'curv'.",
      'It exports curve, fit.',
      10,
    ],
    [
      `import { Fit } from './curve.ts';`,
      'failed',
      "'Fit' of './curve.ts' is a type and has no value.",
      "Write import type { Fit } from './curve.ts';",
      10,
    ],
    [
      `import { slidr } from '#toolkit';`,
      'failed',
      "'#toolkit' does not export 'slidr'.",
      'It exports slider, grid, read, choice, toggle, textField.',
      10,
    ],
    [
      `import def from './curve.ts';`,
      'failed',
      "'./curve.ts' does not export 'default'.",
      'It exports fit, curve.',
      8,
    ],
    [
      `import d3 from 'd3';`,
      'failed',
      "There is nothing to import from 'd3'.",
      "Cells are imported as './name.ts'; libraries: #toolkit.",
      1,
    ],
    [
      `import { curve } from './curve';`,
      'failed',
      "There is nothing to import from './curve'.",
      "Did you mean './curve.ts'? Cells are imported as './name.ts'; libraries: #toolkit.",
      1,
    ],
    [
      `import { curve } from '../curve.ts';`,
      'failed',
      "There is nothing to import from '../curve.ts'.",
      "Did you mean './curve.ts'? Cells are imported as './name.ts'; libraries: #toolkit.",
      1,
    ],
  ])('%s', async (text, phase, message, hint, column) => {
    expect(await problemOf(text)).toMatchObject({ phase, problem: { message, hint, line: 1, column } });
  });

  test('types need no cell to exist', async () => {
    expect(
      (
        await problemOf(
          `import type { Fit } from './curve.ts'; import { type Gone } from './gone.ts'; const f: Fit = { a: 1 };`,
        )
      ).phase,
    ).toBe('done');
  });
});

describe('names of cells', () => {
  test.each(['curve', 'curve.js', 'a b.ts', '../a.ts', '.ts', 'ä.ts', ''])('%j is refused', async (name) => {
    const { engine } = makeWorkbook({});
    await expect(engine.add(name, '')).rejects.toMatchObject({
      name: 'InputError',
      message: expect.stringMatching(/cannot be the name of a cell: expected .*, such as curve/),
    });
  });

  test('a name can be given once, whatever its capitals', async () => {
    const { engine } = makeWorkbook(OTHERS);
    await expect(engine.add('Curve.ts', '')).rejects.toThrow(
      'There is already a cell called curve: expected',
    );
    await expect(engine.rename('readings.ts', 'curve.ts')).rejects.toThrow(
      'There is already a cell called curve: expected',
    );
    expect(() =>
      engine.load([
        { name: 'a.ts', text: '' },
        { name: 'a.ts', text: '' },
      ]),
    ).toThrow('There is already a cell called a: expected');
    expect(engine.cells().map((c) => c.name)).toEqual(['curve.ts', 'readings.ts']);
  });

  test('a cell that does not exist cannot be edited', async () => {
    const { engine } = makeWorkbook({});
    await expect(engine.edit('a.ts', '')).rejects.toThrow("There is no cell called 'a.ts'.");
    expect(() => engine.state('a.ts')).toThrow("There is no cell called 'a.ts'.");
  });
});

describe('adding and removing while running', () => {
  const TEXTS = { a: 'export const a = 1;', b: `import { a } from './a.ts'; export default a;`, x: '' };

  test('removing makes readers wait, adding heals them', async () => {
    const workbook = await openWorkbook(TEXTS);
    await workbook.engine.remove('a.ts');
    expect(workbook.status('b')).toBe('waiting: This cell waits for a, which does not exist.');
    expect(workbook.shown('b')).toBe(1);
    workbook.ran();
    await workbook.engine.add('a.ts', 'export const a = 2;');
    expect(workbook.shown('b')).toBe(2);
    expect(workbook.ran()).toBe('b a');
  });

  test('a removed cell that comes back as it was leaves its readers as they were', async () => {
    const workbook = await openWorkbook(TEXTS);
    await workbook.engine.remove('a.ts');
    workbook.ran();
    await workbook.engine.add('a.ts', TEXTS.a, 0);
    expect(workbook.ran()).toBe('a');
    expect(workbook.status('b')).toBe('done');
  });

  test('a cell is put where it is wanted, and the page is told', async () => {
    const lists: string[] = [];
    const workbook = await openWorkbook(TEXTS, {
      onCells: (cells) => lists.push(cells.map((c) => c.name).join(' ')),
    });
    await workbook.engine.add('n.ts', '', 1);
    await workbook.engine.remove('x.ts');
    expect(lists).toEqual(['a.ts n.ts b.ts x.ts', 'a.ts n.ts b.ts']);
  });
});

import { describe, expect, test } from 'vitest';
import { openWorkbook } from './workbook.ts';

const slider = (value: number, max = 1) =>
  `import { slider } from '#toolkit';\nexport const s = slider({ label: 'S', min: 0, max: ${max}, value: ${value} });`;
const READER = `import { s } from './c.ts'; export default s.value;`;
const open = (text: string, settings = {}) => openWorkbook({ c: text, r: READER }, {}, settings);

describe('settings', () => {
  test('a moved control keeps its value when its cell runs again', async () => {
    const workbook = await open(slider(0.1));
    await workbook.engine.setControl('c.ts', 's', 0.7);
    workbook.ran();
    await workbook.engine.edit('c.ts', `${slider(0.1)} // edited`);
    expect(workbook.shown('r')).toBe(0.7);
    expect(workbook.ran()).toBe('c');
  });

  test('a new starting value in the code wins, and the setting holds again when the code goes back', async () => {
    const workbook = await open(slider(0.1));
    await workbook.engine.setControl('c.ts', 's', 0.7);
    await workbook.engine.edit('c.ts', slider(0.2));
    expect(workbook.shown('r')).toBe(0.2);
    await workbook.engine.edit('c.ts', slider(0.1));
    expect(workbook.shown('r')).toBe(0.7);
  });

  test('a setting that does not fit any more falls back to the start', async () => {
    const workbook = await open(slider(0.1));
    await workbook.engine.setControl('c.ts', 's', 0.7);
    await workbook.engine.edit('c.ts', slider(0.1, 0.5));
    expect(workbook.shown('r')).toBe(0.1);
  });

  test('they are told with where they started, and loaded again', async () => {
    const workbook = await open(slider(0.1));
    await workbook.engine.setControl('c.ts', 's', 0.7);
    const settings = workbook.engine.settings();
    expect(settings).toEqual({ 'c.ts#s': { value: 0.7, from: '0.1' } });
    expect((await open(slider(0.1), settings)).shown('r')).toBe(0.7);
    expect((await open(slider(0.2), settings)).shown('r')).toBe(0.2);
  });

  test('moving back to the start leaves no setting', async () => {
    const workbook = await open(slider(0.1));
    await workbook.engine.setControl('c.ts', 's', 0.7);
    await workbook.engine.setControl('c.ts', 's', 0.1);
    expect(workbook.engine.settings()).toEqual({});
  });

  test('they survive removing and adding the cell, and follow a rename', async () => {
    const workbook = await open(slider(0.1));
    await workbook.engine.setControl('c.ts', 's', 0.7);
    await workbook.engine.remove('c.ts');
    expect(workbook.engine.settings()).toEqual({});
    await workbook.engine.add('c.ts', slider(0.1));
    expect(workbook.shown('r')).toBe(0.7);
    await workbook.engine.rename('c.ts', 'd.ts');
    expect(workbook.engine.settings()).toEqual({ 'd.ts#s': { value: 0.7, from: '0.1' } });
    await workbook.engine.setControl('d.ts', 's', 0.8);
    expect(workbook.shown('r')).toBe(0.8);
  });

  test('the page is told which control moved', async () => {
    const moved: string[] = [];
    const workbook = await openWorkbook(
      { c: slider(0.1) },
      { onSetting: (cell, control) => moved.push(`${cell}#${control}`) },
    );
    await workbook.engine.setControl('c.ts', 's', 0.7);
    expect(moved).toEqual(['c.ts#s']);
  });
});

describe('values that do not fit', () => {
  const KINDS = `import { slider, choice, toggle, textField, grid } from '#toolkit';
export const number = slider({ label: 'N', min: 0, max: 1, value: 0 });
export const one = choice({ label: 'C', value: 'a', options: [{ value: 'a', label: 'A' }, { value: 'b', label: 'B' }] });
export const flag = toggle({ label: 'T', value: false });
export const text = textField({ label: 'X', value: '' });
export const table = grid({ label: 'G', value: { headings: ['a'], rows: [['1']] }, read: () => ({ headings: [], rows: [] }) });`;

  test.each([
    ['number', 2, 'N: expected a number from 0 to 1, got 2.'],
    ['number', '1', 'N: expected a number.'],
    ['one', 'c', 'C: expected one of a, b, got c.'],
    ['flag', 1, 'T: expected true or false.'],
    ['text', null, 'X: expected a text.'],
    ['table', { headings: [1], rows: [] }, 'G: expected a table with headings and rows of text.'],
    ['none', 1, "k.ts has no control called 'none'."],
  ])('%s refuses %j', async (control, value, sentence) => {
    const workbook = await openWorkbook({ k: KINDS });
    const moved = workbook.engine.setControl('k.ts', control, value);
    await expect(moved).rejects.toMatchObject({ name: 'InputError', message: sentence });
  });

  test('each kind takes a value of its own', async () => {
    const workbook = await openWorkbook({ k: KINDS });
    const values = { number: 1, one: 'b', flag: true, text: 'x', table: { headings: ['b'], rows: [] } };
    for (const [name, value] of Object.entries(values)) await workbook.engine.setControl('k.ts', name, value);
    expect(Object.fromEntries(workbook.state('k').controls.map((c) => [c.name, c.value]))).toEqual(values);
  });
});

import { describe, expect, test } from 'vitest';
import { openWorkbook } from './workbook.ts';

const SD = `import { slider } from '#toolkit';
export const sd = slider({ label: 'Meter', min: 0, max: 1, value: 0.1 });
export const other = slider({ label: 'Other', min: 0, max: 1, value: 0.5 });
export default [sd, other];`;

//  sd → reads (.value) → after
//  sd → label (no .value)
//  sd → late (.value after an await), passed (read by a toolkit function), whole (import of everything)
const TEXTS = {
  sd: SD,
  reads: `import { sd } from './sd.ts'; export const twice = sd.value * 2; export default twice;`,
  after: `import { twice } from './reads.ts'; export default twice + 1;`,
  label: `import { sd } from './sd.ts'; export default sd.label + sd.max;`,
  late: `import { sd } from './sd.ts'; await null; await null; export default sd.value;`,
  passed: `import { sd } from './sd.ts'; import { read } from '#toolkit'; export default read(sd);`,
  whole: `import * as cell from './sd.ts'; export default cell.sd.value;`,
  unused: `import { other } from './sd.ts'; export default other.value;`,
};

describe('a control that moves', () => {
  test('runs exactly the cells that read its value, and their downstream', async () => {
    const workbook = await openWorkbook(TEXTS);
    await workbook.engine.setControl('sd.ts', 'sd', 0.2);
    expect(workbook.ran()).toBe('reads after late passed whole');
    expect(['reads', 'after', 'late', 'passed', 'whole'].map(workbook.shown)).toEqual([
      0.4, 1.4, 0.2, 0.2, 0.2,
    ]);
  });

  test('several moves together are one batch, and a move back is none', async () => {
    const workbook = await openWorkbook(TEXTS);
    for (const value of [0.2, 0.3, 0.4]) void workbook.engine.setControl('sd.ts', 'sd', value);
    await workbook.engine.setControl('sd.ts', 'other', 0.6);
    expect(workbook.ran()).toBe('reads after late passed whole unused');
    void workbook.engine.setControl('sd.ts', 'other', 0.9);
    await workbook.engine.setControl('sd.ts', 'other', 0.6);
    expect(workbook.ran()).toBe('');
  });

  test('its own cell does not run, and its state tells the new value', async () => {
    const workbook = await openWorkbook(TEXTS);
    await workbook.engine.setControl('sd.ts', 'sd', 0.2);
    expect(workbook.state('sd').controls.map((c) => [c.name, c.value])).toEqual([
      ['sd', 0.2],
      ['other', 0.5],
    ]);
    expect(workbook.state('sd').controls[0]!.control.value).toBe(0.1);
  });

  test('a value read only in one branch is followed as long as the branch is taken', async () => {
    const workbook = await openWorkbook({
      c: `import { toggle, slider } from '#toolkit'; export const on = toggle({ label: 'on', value: false });
export const s = slider({ label: 's', min: 0, max: 9, value: 1 });`,
      d: `import { on, s } from './c.ts'; export default on.value ? s.value : 0;`,
    });
    await workbook.engine.setControl('c.ts', 's', 2);
    expect(workbook.ran()).toBe('');
    await workbook.engine.setControl('c.ts', 'on', true);
    expect(workbook.shown('d')).toBe(2);
    workbook.ran();
    await workbook.engine.setControl('c.ts', 's', 3);
    expect(workbook.ran()).toBe('d');
  });

  test('a value read later by an exported function counts for the cell that exports it', async () => {
    // sd → scale (a function that reads sd) → use
    const workbook = await openWorkbook({
      sd: SD,
      scale: `import { sd } from './sd.ts'; export const scale = (x) => x * sd.value;`,
      use: `import { scale } from './scale.ts'; export default scale(10);`,
    });
    await workbook.engine.setControl('sd.ts', 'sd', 0.2);
    expect(workbook.ran()).toBe('scale use');
    expect(workbook.shown('use')).toBe(2);
  });

  test('a control that is passed on is followed by whoever reads it', async () => {
    const workbook = await openWorkbook({
      sd: SD,
      pass: `export { sd as meter } from './sd.ts';`,
      nest: `import { sd } from './sd.ts'; export const settings = { sd };`,
      use: `import { meter } from './pass.ts'; export default meter.value;`,
      deep: `import { settings } from './nest.ts'; export default settings.sd.value;`,
    });
    await workbook.engine.setControl('sd.ts', 'sd', 0.2);
    expect(['use', 'deep'].map(workbook.shown)).toEqual([0.2, 0.2]);
    expect(workbook.ran()).toBe('nest use deep');
    expect(workbook.state('pass').controls).toEqual([]);
  });

  test('its owner is told for the control and for every view of it', async () => {
    const workbook = await openWorkbook({
      sd: SD,
      show: `import { sd } from './sd.ts'; export default [sd];`,
    });
    const [view] = workbook.shown('show') as [object];
    const [control] = workbook.shown('sd') as [object];
    expect(workbook.engine.ownerOf(view)).toEqual({ cell: 'sd.ts', name: 'sd' });
    expect(workbook.engine.ownerOf(control)).toEqual({ cell: 'sd.ts', name: 'sd' });
    expect(workbook.engine.ownerOf({})).toBeNull();
  });

  test('an importing cell cannot change it', async () => {
    const workbook = await openWorkbook({ sd: SD, bad: `import { sd } from './sd.ts';\nsd.value = 1;` });
    expect(workbook.state('bad').problem).toMatchObject({
      line: 2,
      hint: expect.stringContaining('moved by the reader'),
    });
  });
});

describe('warnings about controls', () => {
  test('a control inside another exported object cannot be followed', async () => {
    const workbook = await openWorkbook({
      c: `import { slider } from '#toolkit'; const s = slider({ label: 'Deep', min: 0, max: 1, value: 0 }); export const all = { list: [s] };`,
    });
    expect(workbook.state('c').warnings.map((w) => w.message)).toEqual([
      "The control 'Deep' lies inside all and cannot be followed when it moves.",
    ]);
  });

  test('showing an exported control inside a view is fine', async () => {
    const workbook = await openWorkbook({ sd: SD });
    expect(workbook.state('sd').warnings).toEqual([]);
  });
});

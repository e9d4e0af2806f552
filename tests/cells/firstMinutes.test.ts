import { describe, expect, test, vi } from 'vitest';
import type { GridValue } from '../../src/base/grid.ts';
import { shown } from './shown.ts';
import { openWorkbook, shipped } from './workbook.ts';

vi.setConfig({ testTimeout: 60_000 });

const TOUR = '158-first-minutes.ts';
const DOOR = '02-new-here.ts';
const engine = await openWorkbook();
const before = (await shown()).text;

/** A table with each entry of a column changed. */
function changed({ headings, rows }: GridValue, heading: string, entry: string): GridValue {
  const column = headings.findIndex((one) => one.startsWith(heading));
  return { headings, rows: rows.map((row) => row.map((old, i) => (i === column ? entry : old))) };
}

const start = (cell: string, name: string) =>
  engine.state(`${cell}.ts`).controls.find((entry) => entry.name === name)!.value;

describe('what the first minutes promise', () => {
  test('every step but the last leads to a cell', () => {
    const text = engine.cells().find(({ name }) => name === TOUR)!.text;
    const steps = text.split(/\n\s+\d\. /).slice(1);
    expect(steps.map((step) => /\(cell:([\w-]+)\)/.exec(step)?.[1])).toEqual([
      '72-chosen',
      '40-curve',
      '65-sensitivity',
      '54-which',
      '40-curve',
      '100-session',
      '20-stages',
      undefined,
    ]);
  });

  test('a reading that moves takes the thresholds along', async () => {
    const stages = start('20-stages', 'stages') as GridValue;
    const moved = {
      ...stages,
      rows: stages.rows.map((row) => row.map((entry) => (entry === '2.2' ? '3.0' : entry))),
    };
    expect(moved.rows).not.toEqual(stages.rows);
    const { text } = await shown({ '20-stages': { stages: moved } });
    expect(text.get('72-chosen')).not.toBe(before.get('72-chosen'));
  });

  test('the meter’s error stands where the step leads, and changes the ranges', async () => {
    const { shown: panel } = engine.state('65-sensitivity.ts');
    expect(JSON.stringify(panel)).toContain('Repeatability of the meter');
    const { text } = await shown({ '60-meter': { repeatability: 0.5 } });
    expect(text.get('72-chosen')).not.toBe(before.get('72-chosen'));
  });

  test('Dmax can be asked how it is found', async () => {
    const { text } = await shown({ '54-which': { which: 'dmax' } });
    expect(text.get('55-found')).toContain('the line between its ends');
  });

  test('the line of code to change is there once, and changes the thresholds', async () => {
    const own = await openWorkbook();
    const { text } = own.cells().find(({ name }) => name === '40-curve.ts')!;
    expect(text.split('model.value')).toHaveLength(2);
    await own.edit('40-curve.ts', text.replace('model.value', "'cubic'"));
    const { phase, shown: curve } = own.state('40-curve.ts');
    expect(phase).toBe('done');
    expect(JSON.stringify(curve)).not.toBe(JSON.stringify(engine.state('40-curve.ts').shown));
    expect(JSON.stringify(own.state('72-chosen.ts').shown)).not.toBe(
      JSON.stringify(engine.state('72-chosen.ts').shown),
    );
  });

  test('the session was too hard; with lactates of 2.5 the verdict turns', async () => {
    expect(before.get('105-review')).toContain('Too hard: above the second threshold');
    const session = changed(start('100-session', 'session') as GridValue, 'lactate', '2.5');
    const { text } = await shown({ '100-session': { session } });
    expect(text.get('105-review')).toContain('At or just under the second threshold');
    expect(text.get('105-review')).toContain('Intensity and lactate disagree');
  });
});

test.each(['athlete-own', 'athlete-runner'] as const)(
  '%s, where the steps do not hold, has none',
  async (workbook) => {
    const names = (await shipped(workbook)).map(({ name }) => name);
    expect(names.length).toBeGreaterThan(50);
    expect(names.filter((name) => name === TOUR || name === DOOR)).toEqual([]);
  },
);

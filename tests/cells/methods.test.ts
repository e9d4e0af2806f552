import { describe, expect, test, vi } from 'vitest';
import { METHODS, methodSwitch, numbersIn, switchedOn, withoutSwitch } from '#hourline';
import { expectSilence, grid, POWER, shown } from './shown.ts';
import { cellsIn, type Moves } from './workbook.ts';

vi.setConfig({ testTimeout: 60_000 });

expectSilence();

const page = (moves: Moves = {}) => shown(moves, 'methods');
const stagesOf = (...rows: [number, number][]): Moves => ({ '20-stages': { stages: grid(POWER, ...rows) } });

/** Every switch of the page turned on. */
const ALL_ON: Moves = {
  '40-first': { plus03: true, plus04: true },
  '41-second': { plus15: true, fixed30: true, fixed35: true, equivalent10: true },
  '42-second-more': { modifiedExponential: true, bisector: true },
};

describe('the methods page', () => {
  test('every switch stands with its method: what is turned on in one cell is shown in another', () => {
    const cells = [...cellsIn('methods').values()].join('\n');
    const ids = [...cells.matchAll(/methodSwitch\(\s*'([^']+)'/g)].map(([, id]) => id!);
    expect(ids.length).toBeGreaterThan(20);
    for (const id of ids) {
      expect(cells, id).toMatch(new RegExp(`showMethods\\([^)]*'${id.replaceAll('.', '\\.')}'`));
    }
  });

  test('each method names its paper, its claim, its needs and its bias', async () => {
    const { text } = await page(ALL_ON);
    const all = [...text.values()].join('\n');
    for (const { source, meaning, bias } of METHODS) {
      expect(all).toContain(source);
      expect(all).toContain(meaning);
      expect(all).toContain(bias);
    }
  });

  test('a switch takes a method out of its own cell and out of the overview', async () => {
    const { text: before } = await page();
    expect(before.get('61-dmax')).toMatch(/Dmax: \d+\u202fW, 95 % interval/);
    const off = { '41-second': { dmax: false, dmaxExponential: false } };
    const { text: after } = await page(off);
    expect(after.get('61-dmax')).toContain('Switched off');
    expect(before.get('70-agreement')).toContain('Exponential Dmax');
    expect(after.get('70-agreement')).not.toMatch(/(?<!Modified )Dmax/);
  });

  test('a method without an answer says why, beside what can be drawn', async () => {
    const { text } = await page();
    expect(text.get('64-slopes')).toMatch(/Fixed slope: no answer here.*published for no cycling test/s);
    expect(text.get('80-other-tests')).toMatch(/It is defined on .*; this is /);
  });

  test('a slope of one’s own gives the fixed slope an answer', async () => {
    const { text } = await page({ '35-choices': { slope: 0.05 } });
    expect(text.get('64-slopes')).toMatch(/Fixed slope: \d+\u202fW/);
  });

  test('the entries of two raters give the visual threshold and its spread, one does not', async () => {
    const two = { '30-by-eye': { leaves: '210 230', steep: '280' } };
    const { text } = await page(two);
    expect(text.get('67-by-eye')).toMatch(/Visual 1: 220\u202fW, spread of the raters/);
    expect(text.get('67-by-eye')).toMatch(/Visual 2: no answer here.*at least 2 raters/s);
  });

  test('without recovery samples the individual threshold says what it needs', async () => {
    const none = grid(['minute', 'lactate (mmol/L)', 'mode'], ['', '', '']);
    const { text } = await page({ '22-recovery': { recovery: none } });
    expect(text.get('63-individual')).toMatch(/needs lactate samples from the minutes after the end/);
  });
});

describe('the methods page on awkward tests', () => {
  test.each<[string, Moves]>([
    ['four stages', stagesOf([120, 1.1], [180, 1.2], [240, 2.0], [300, 5.2])],
    [
      'flat and dipping',
      stagesOf([100, 1.4], [140, 0.8], [180, 1.5], [220, 0.9], [260, 1.3], [300, 1.2], [340, 1.4]),
    ],
    ['raised', stagesOf([100, 5.6], [140, 5.5], [180, 5.6], [220, 5.9], [260, 6.6], [300, 8.4], [340, 9.8])],
    ['falling', stagesOf([100, 5], [140, 4], [180, 3.5], [220, 3], [260, 2.6], [300, 2.4], [340, 2.3])],
    [
      'a stage at 0 W',
      stagesOf([0, 1.0], [140, 0.9], [180, 1], [220, 1.3], [260, 1.9], [300, 3.4], [340, 6.8]),
    ],
    ['stopped early', { '10-athlete': { effort: 'no' } }],
    ['nothing known', { '10-athlete': { effort: 'unknown', bodyMass: null, stageMinutes: null } }],
    ['every switch on', ALL_ON],
    ['another baseline', { '35-choices': { baseline: 'rest', anchor: 'baseline' } }],
  ])('%s: every cell comes to an end', async (_name, moves) => {
    await page({ ...ALL_ON, ...moves });
  });
});

test('switches are found among the exports of cells by their method', () => {
  const [on, off] = [methodSwitch('dmax'), methodSwitch('log-log', false)];
  expect([...switchedOn({ on, off, other: 3, default: [] }, {})]).toEqual(['dmax']);
  const rest = withoutSwitch({ on }, { off });
  expect(rest).toHaveLength(METHODS.length - 2);
  expect(rest).not.toContain('dmax');
  expect(() => methodSwitch('no-such-method')).toThrow(/no method 'no-such-method'/);
});

test('what raters type is read as numbers, the rest is passed over', () => {
  expect(numbersIn(' 240;  255,5 x 13.2')).toEqual([240, 255.5, 13.2]);
  expect(numbersIn('')).toEqual([]);
});

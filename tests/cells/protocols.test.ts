import { describe, expect, test, vi } from 'vitest';
import { grid, shown } from './shown.ts';
import { moveControls, openWorkbook } from './workbook.ts';

vi.setConfig({ testTimeout: 60_000 });

const plain = (text: string | undefined) => (text ?? '').replaceAll('\u202f', ' ');
const POWER = ['power (W)', 'lactate (mmol/L)'];

describe('the lactate minimum test', () => {
  const test_ = (...rows: (string | number)[][]) =>
    shown({ '20-stages': { stages: grid(['stage', ...POWER], ...rows) } }, 'lactate-minimum');

  test('gives the minimum between the lowest stage and its neighbours', async () => {
    const { text } = await shown({}, 'lactate-minimum');
    const [, watts] = /Maximal lactate steady state\n(\d+) W/.exec(plain(text.get('40-estimate')))!;
    expect(Number(watts)).toBeGreaterThan(240);
    expect(Number(watts)).toBeLessThan(300);
  });

  test('without the lactate after the rest it says what it needs', async () => {
    const { text } = await test_(
      [1, 180, 8],
      [2, 210, 6],
      [3, 240, 5],
      [4, 270, 4.5],
      [5, 300, 5],
      [6, 330, 7],
    );
    expect(text.get('40-estimate')).toMatch(/no answer.*needs the lactate after the sprints and the rest/s);
  });

  test('lactate that only rises has no minimum', async () => {
    const { text } = await test_(
      ['recovery', 0, 9],
      [1, 180, 1],
      [2, 210, 2],
      [3, 240, 3],
      [4, 270, 4],
      [5, 300, 6],
    );
    expect(text.get('40-estimate')).toContain('no answer');
  });
});

describe('the reverse test', () => {
  test('gives the peak between the stages beside it', async () => {
    const { text } = await shown({}, 'reverse');
    const [, watts] = /Maximal lactate steady state\n(\d+) W/.exec(plain(text.get('40-estimate')))!;
    expect(Number(watts)).toBeGreaterThan(280);
    expect(Number(watts)).toBeLessThan(310);
  });

  test('rising stages are no reverse test', async () => {
    const rising = grid(POWER, [200, 1], [230, 2], [260, 3], [290, 5], [320, 8]);
    const { text } = await shown({ '20-stages': { stages: rising } }, 'reverse');
    expect(text.get('40-estimate')).toContain('no answer');
  });
});

describe('constant-load bouts', () => {
  const HEADINGS = ['power (W)', 'minute', 'lactate (mmol/L)', 'completed'];

  test('the hardest steady bout is the answer, and the next one the other end', async () => {
    const { text } = await shown({}, 'bouts');
    expect(plain(text.get('40-estimate'))).toMatch(/Maximal lactate steady state\n285 W/);
    expect(plain(text.get('40-estimate'))).toContain('between 285 W and 300 W');
    expect(text.get('30-readings')).toContain('not steady');
  });

  test('a bout that was given up is not steady', async () => {
    const bouts = grid(
      HEADINGS,
      [260, 10, 3, 'yes'],
      [260, 30, 3.2, 'yes'],
      [290, 10, 5, 'no'],
      [290, 18, 6.5, 'no'],
    );
    const { text } = await shown({ '20-bouts': { bouts } }, 'bouts');
    expect(text.get('30-readings')).toContain('given up');
    expect(plain(text.get('40-estimate'))).toContain('260 W');
  });

  test('one bout alone is not enough; a table that cannot be read says so', async () => {
    const bouts = grid(HEADINGS, [260, 10, 3, 'yes'], [260, 30, 3.2, 'yes']);
    const { text } = await shown({ '20-bouts': { bouts } }, 'bouts');
    expect(text.get('40-estimate')).toContain('no answer');
    const engine = await openWorkbook('bouts');
    await moveControls(engine, { '20-bouts': { bouts: grid(['power (W)', 'minute'], [260, 10]) } });
    expect(engine.state('30-readings.ts').problem?.message).toMatch(/lactate/);
  });
});

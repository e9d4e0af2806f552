import { describe, expect, test, vi } from 'vitest';
import { knownAthlete, lessonAnswer, showAbove, showIncrements, showStageLengths } from '#hourline';
import type { GridValue } from '../../src/base/grid.ts';
import { type ChartView, isView, type JobStep, type JobView, type View } from '../../src/view/view.ts';
import type { Engine } from '../../src/workbook/engineTypes.ts';
import { shown, textsOf } from './shown.ts';
import type { Moves } from './workbook.ts';

vi.setConfig({ testTimeout: 60_000 });

const lesson = (moves: Moves = {}) => shown(moves, 'lesson');
const KINDS = ['cyclist', 'enduring', 'sprinter', 'runner'];

/** All views inside what a cell shows. */
function viewsOf(shownValue: unknown): View[] {
  if (Array.isArray(shownValue)) return shownValue.flatMap(viewsOf);
  if (!isView(shownValue)) return [];
  return shownValue.view === 'stack' ? [shownValue, ...shownValue.items.flatMap(viewsOf)] : [shownValue];
}

const viewsIn = (engine: Engine, cell: string): View[] =>
  viewsOf(engine.states().find(({ name }) => name === `${cell}.ts`)!.shown);

describe('the lesson', () => {
  // Outside reference: scipy's steady states (tests/references/simulator): 312.16 W and 9.7700 km/h.
  test.each([
    ['cyclist', '312'],
    ['runner', '9.77'],
  ])('shows the truth about the %s', async (kind, steady) => {
    const { text } = await lesson({ '10-kind': { kind } });
    expect(text.get('12-athlete')).toMatch(new RegExp(`Maximal lactate steady state\n${steady}\n`));
  });

  test('every picture and table says that it is a model', async () => {
    const { engine } = await lesson();
    const made = engine.states().flatMap(({ name, shown }) => viewsOf(shown).map((view) => ({ name, view })));
    const told = made.filter(({ view }) => view.view === 'chart' || view.view === 'table');
    expect(told.length).toBeGreaterThan(8);
    for (const { name, view } of told) expect(textsOf(view).join(' '), name).toContain('A model, not people');
  });

  test('an athlete whose lactate stays low never comes to 4 mmol/L, and the method says so', async () => {
    const { text } = await lesson({ '10-kind': { kind: 'enduring' }, '15-protocol': { increment: 40 } });
    expect(text.get('25-truth')).toMatch(/Fixed 4\.0\n–\n.*\n.*\nno answer\n/);
    expect(text.get('25-truth')).toMatch(/Fixed 4\.0:\* Lactate never rises to/);
  });

  test('where lactate stays low, the methods that the answer names keep silent more often', async () => {
    const silentShares = async (kind: string) => {
      const { engine } = await lesson({ '10-kind': { kind } });
      const job = viewsIn(engine, '25-truth').find((view) => view.view === 'job') as JobView;
      const end = textsOf([...job.steps()].at(-1)!.shown()).join('\n');
      return ['Fixed 4.0', 'Second rise', 'Modified Dmax'].map((name) => {
        const row = new RegExp(`\\n${name}\\n.*\\n.*\\n.*\\n.*\\n(.*)%`).exec(end)!;
        return Number(row[1]!.replace('<', '').trim());
      });
    };
    const [before, low] = [await silentShares('cyclist'), await silentShares('enduring')];
    for (const [i, share] of low.entries()) expect(share).toBeGreaterThan(before[i]! + 5);
  });

  test('what was left out of the test is told beneath its picture', async () => {
    const { engine } = await lesson();
    const [picture] = viewsIn(engine, '20-test').filter((view) => view.view === 'chart');
    expect((picture as ChartView).summary).toContain('The last stage (10 % done) is not on the curve.');
  });

  test('beside each simulated bias stands the published one, or a dash', async () => {
    const { text } = await lesson();
    expect(text.get('25-truth')).toMatch(
      /Fixed 4\.0\n[+−]\d.*\n−7\u202fW, cycling; \+12\.5\u202f%, rowing\n/,
    );
    expect(text.get('25-truth')).toMatch(/Log–log\n[+−]\d.*\n–\n/);
    expect(text.get('25-truth')).toContain('Hauser et al. 2014, Int J Sports Med 35:517–521');
  });

  test('better meters scatter less and leave bias where it is', async () => {
    const scatterOf = (all: string) => /Fixed 3\.0\n(\S+)\n–\n(\S+)\n/.exec(all)!;
    const [, bias, scatter] = scatterOf((await lesson()).text.get('25-truth')!);
    const [, same, less] = scatterOf(
      (await lesson({ '17-meter': { meter: 'bench' } })).text.get('25-truth')!,
    );
    expect(same).toBe(bias);
    expect(Number(less)).toBeLessThan(Number(scatter));
  });

  test('every question has a folded answer', async () => {
    const { engine } = await lesson();
    const answers = engine
      .states()
      .flatMap(({ shown }) => viewsOf(shown))
      .filter((view) => view.view === 'stack' && view.folded === 'Answer');
    expect(answers).toHaveLength(7);
    expect(() => lessonAnswer('no such' as 'class')).toThrow(/no question 'no such'/);
  });
});

describe('the questions', () => {
  test('1: a fixed value falls as stages get longer', async () => {
    const { text } = await lesson();
    const rows = [...text.get('42-lengths')!.matchAll(/\n([1358])\n(\d+)\n([+−][\d.]+)\n/g)];
    const answers = rows.map(([, , answer]) => Number(answer));
    expect(rows.map(([, minutes]) => minutes)).toEqual(['1', '3', '5', '8']);
    expect(answers).toEqual(answers.toSorted((a, b) => b - a));
  });

  // Analytic truth: curve and chord are stretched and lifted alike.
  test('2: no calibration moves Dmax, any moves a fixed value', async () => {
    for (const [factor, added] of [
      [20, 0],
      [-25, 0.3],
      [0, -0.2],
    ]) {
      const { text } = await lesson({ '50-calibration': { factor, added } });
      expect(text.get('52-calibrated')).toMatch(/\nDmax\nLT2\n(\d+)\n\1\nstays\n/);
      expect(text.get('52-calibrated')).toMatch(/\nFixed 4\.0\nLT2\n\d+\n\d+\n[+−]\d/);
    }
    const { text } = await lesson({ '50-calibration': { factor: 0, added: 0.3 } });
    expect(text.get('52-calibrated')).toMatch(/\nBaseline \+ 1\.0\nLT1\n(\d+)\n\1\nstays\n/);
  });

  test('3: a dragged reading writes into the table, and methods go along', async () => {
    const { engine, text } = await lesson();
    expect(text.get('62-dragged')).toContain('All readings are as simulated');
    expect(text.get('62-dragged')).toContain('No method moves');
    const chart = viewsIn(engine, '62-dragged').find((view): view is ChartView => 'handles' in view)!;
    const last = chart.handles!.at(-1)!;
    const moved = last.moved(last.value + 2) as GridValue;
    const { text: after } = await lesson({ '60-reading': { stages: moved } });
    expect(after.get('62-dragged')).toMatch(/One reading is changed: 8\.5.* became 10\.5/);
    expect(after.get('62-dragged')).toMatch(/\nDmax\nLT2\n\d+\n\d+\n[+−]\d/);
    expect(after.get('62-dragged')).toMatch(/\nFixed 3\.0\nLT2\n(\d+)\n\1\nstays/);
  });

  test('4: reps above the steady state end higher, and early in the first all are alike', async () => {
    const { text } = await lesson({ '10-kind': { kind: 'runner' } });
    const rows = [
      ...text.get('72-sessions')!.matchAll(/\n(\d+)\u202f%\n([\d.]+)\n([\d.]+)\n[\d.]+\n[\d.]+\n([\d.]+)/g),
    ].map(([, ...figures]) => figures.map(Number));
    expect(rows.map(([share]) => share)).toEqual([95, 100, 105, 110]);
    const [early, , late] = [1, 2, 3].map((i) => rows.at(-1)![i]! - rows[0]![i]!);
    expect(late).toBeGreaterThan(5 * early!);
  });

  test('5: an answer in stages moves with the increment more than one between stages', async () => {
    const { text } = await lesson();
    const span = (name: string) => {
      const [, low, high] = new RegExp(`${name} lies between (\\d+) and (\\d+)`).exec(
        text.get('80-increment')!,
      )!;
      return Number(high) - Number(low);
    };
    expect(span('First rise')).toBeGreaterThan(3 * span('Baseline \\+ 0\\.5'));
  });
});

describe('a cell whose code asks for nothing', () => {
  const athlete = knownAthlete('cyclist');
  const protocol = { stageMinutes: 4, start: 100, increment: 30 };
  const session = { reps: 4, repMinutes: 10, restMinutes: 2 };
  test.each<[string, () => unknown]>([
    ['minutes', () => showStageLengths(athlete, { protocol, method: 'dmax', minutes: [] })],
    ['increments', () => showIncrements(athlete, { protocol, methods: ['dmax'], increments: [] })],
    ['methods', () => showIncrements(athlete, { protocol, methods: [], increments: [30] })],
    ['shares', () => showAbove(athlete, { ...session, shares: [] })],
  ])('is told that %s are missing', (what, show) => {
    expect(show).toThrow(new RegExp(`^${what} is missing or empty: give at least one, such as \\[`));
  });
});

describe('the class', () => {
  const jobIn = (engine: Engine) =>
    viewsIn(engine, '35-tested').find((view) => view.view === 'job') as JobView;

  test('is a computation in steps, with a picture and a table in the end', async () => {
    const { engine } = await lesson({ '30-class': { athletes: 20 } });
    const job = jobIn(engine);
    expect(job).toMatchObject({ begin: 'asked', label: 'A class of 20 simulated cyclists, seed 1' });
    const steps: JobStep[] = [...job.steps()];
    expect(steps.map(({ share }) => share)).toEqual(Array.from({ length: 20 }, (_, i) => (i + 1) / 20));
    expect(steps[0]!.shown()).toBeNull();
    const end = textsOf(steps.at(-1)!.shown()).join('\n');
    expect(end).toContain('A model, not people.');
    expect(end).toMatch(
      /Fixed 4\.0\n[+−][\d.]+ ± [\d.]+\n−7\u202fW, cycling.*\n[+−][\d.]+ ± [\d.]+\n\d+ of 20/,
    );
    expect(end).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('its summary names no method that most of the class get no answer from', async () => {
    const { engine } = await lesson({ '10-kind': { kind: 'runner' }, '30-class': { athletes: 40 } });
    const end = textsOf([...jobIn(engine).steps()].at(-1)!.shown()).join('\n');
    const [, nearest] = /On average (.+?) comes nearest/.exec(end)!;
    const [, answered] = new RegExp(
      `\\n${nearest!.replaceAll(/[.+]/g, '\\$&')}\\n.*\\n.*\\n.*\\n(\\d+) of 40`,
    ).exec(end)!;
    expect(Number(answered)).toBeGreaterThanOrEqual(20);
  });

  test('another seed is another class', async () => {
    const last = async (seed: number | null) => {
      const { engine } = await lesson({ '30-class': { athletes: 20, seed } });
      return textsOf([...jobIn(engine).steps()].at(-1)!.shown()).join('\n');
    };
    expect(await last(null)).toBe(await last(1));
    expect(await last(2)).not.toBe(await last(1));
  });
});

describe('the lesson with awkward settings', () => {
  const cases: [string, Moves][] = KINDS.flatMap((kind): [string, Moves][] => {
    const running = kind === 'runner';
    const protocol = (start: number, increment: number, stageMinutes: number): Moves => ({
      '10-kind': { kind },
      '15-protocol': { start, increment, stageMinutes },
    });
    return [
      [`${kind}: steepest and shortest`, running ? protocol(9, 2, 1) : protocol(200, 60, 1)],
      [`${kind}: gentlest and longest`, running ? protocol(4, 0.2, 10) : protocol(40, 10, 10)],
    ];
  });
  test.each([
    ...cases,
    ['a meter without errors', { '18-errors': { repeatability: 0, gain: 0, contamination: 0 } }],
    ['a meter that is way off', { '50-calibration': { factor: -30, added: -0.4, looked: 'log-log' } }],
    ['one long effort', { '70-above': { repMinutes: 30, restMinutes: 0 } }],
    ['a method that answers with a stage', { '40-longer': { follow: 'second-rise' } }],
    ['a method that keeps silent', { '40-longer': { follow: 'fixed-slope' } }],
  ] as [string, Moves][])('%s: every cell comes to an end', async (_name, moves) => {
    await lesson(moves);
  });
});

import { describe, expect, test } from 'vitest';
import {
  boutGrid,
  boutVerdicts,
  CAUTIONS,
  cautionsMarkdown,
  disagreements,
  displayOf,
  errorSlider,
  errorsFrom,
  estimateAll,
  HANDHELD,
  intensityWords,
  METHODS,
  methodChoice,
  NO_ERROR,
  percentWords,
  rangeWords,
  readBouts,
  readingsOf,
  readRecovery,
  readStepTest,
  recoveryGrid,
  sampleThresholds,
  stageGrid,
  tableOf,
  thresholdFigure,
  usableReadings,
  wentToExhaustion,
} from '#hourline';
import type { StepTest } from '../../src/physiology/stepTest.ts';

const stagesOf = (x: number[], y: number[]) =>
  x.map((intensity, row) => ({
    row,
    intensity,
    lactate: y[row]!,
    heartRate: null,
    rpe: null,
    minutes: null,
  }));
const cyclist: StepTest = {
  sport: 'cycling',
  axis: 'power',
  stages: stagesOf([100, 140, 180, 220, 260, 300, 340], [0.9, 0.8, 0.9, 1.1, 1.6, 2.9, 7.9]),
  restLactate: null,
  stageMinutes: 4,
  bodyMass: 72,
  notes: [],
};
const runner: StepTest = {
  ...cyclist,
  sport: 'running',
  axis: 'speed',
  stages: stagesOf([8, 9, 10, 11, 12, 13, 14, 15], [1.3, 1.2, 1.3, 1.5, 1.9, 2.7, 4.2, 7.1]),
};
const shown = (of: StepTest, wanted?: Parameters<typeof displayOf>[2]) =>
  displayOf(of, usableReadings(of), wanted);
const plain = (text: string) => text.replaceAll('\u202f', ' ');
const inside = (low: number, high: number) => ({
  low: { value: low, beyond: null },
  high: { value: high, beyond: null },
});

describe('a workbook may start from', () => {
  test('bouts at constant intensity: grid, reading, estimate', () => {
    const grid = boutGrid({
      csv: 'power (W),minute,lactate,completed\n240,10,2.5,yes\n240,30,2.7,yes\n270,10,4.3,yes\n270,30,6.1,yes\n',
    });
    expect(grid.check!(grid.value).filter((mark) => mark.tone === 'problem')).toEqual([]);
    const bouts = readBouts(grid.value);
    expect(estimateAll(bouts)).toMatchObject([{ method: 'steady-state-bouts', intensity: 240 }]);
    expect(boutVerdicts(readingsOf(bouts), HANDHELD).map((v) => v.steady)).toEqual([true, false]);
  });

  test('a step test with recovery samples of their own table', () => {
    const grid = recoveryGrid({ csv: 'minute,lactate,mode\n1,9,passive\n3,9.2,\n5,8,\n7,7,\n' });
    const test: StepTest = { ...cyclist, recovery: readRecovery(grid.value) };
    const answers = estimateAll(test).filter((e) => e.method === 'individual-anaerobic');
    expect(answers).toMatchObject([{ claim: 'LT2', curve: 'exponential' }]);
    expect(estimateAll(cyclist).map((e) => e.method)).not.toContain('individual-anaerobic');
  });

  test('a lactate minimum test in a table of stages', () => {
    const grid = stageGrid({
      protocol: 'lactate-minimum',
      csv: 'stage,power (W),lactate\nrecovery,,9\n1,180,5\n2,200,4\n3,220,3.5\n4,240,3.6\n5,260,4.5\n6,280,6\n',
    });
    expect(grid.check!(grid.value).filter((mark) => mark.tone === 'problem')).toEqual([]);
    expect(estimateAll(readStepTest(grid.value, { protocol: 'lactate-minimum' }))).toMatchObject([
      { method: 'lactate-minimum', claim: 'MLSS' },
    ]);
  });
});

describe('numbers in words', () => {
  test('the second unit is the wanted one where it applies, else the usual one of the sport', () => {
    expect(shown(cyclist).second).toBe('W/kg');
    expect(shown({ ...cyclist, bodyMass: null }).second).toBeNull();
    expect(shown(runner).second).toBe('min/km');
    expect(shown(runner, 'min/mile').second).toBe('min/mile');
    expect(shown(cyclist, 'min/mile').second).toBe('W/kg');
  });

  test('an intensity is rounded to what its error allows', () => {
    const display = shown(cyclist);
    expect(plain(intensityWords(282.6, display, { sd: 4 }))).toBe('283 W');
    expect(plain(intensityWords(224.6, display, { sd: 35 }))).toBe('220 W');
    expect(plain(intensityWords(288, display, { in: 'W/kg', sd: 4 }))).toBe('4.00 W/kg');
    expect(plain(intensityWords(12, shown(runner), { in: 'min/km' }))).toBe('5:00 /km');
  });

  test('a stage is shown as the machine was set; one that was given as a pace is rounded as usual', () => {
    const stage = (x: number, given: typeof cyclist | typeof runner) =>
      plain(intensityWords(x, shown(given), { asSet: true }));
    expect([137.5, 250].map((watts) => stage(watts, cyclist))).toEqual(['137.5 W', '250 W']);
    expect(stage(232.05, cyclist)).toBe('232 W');
    expect([12.25, 15, 60 / (4 + 40 / 60)].map((speed) => stage(speed, runner))).toEqual([
      '12.25 km/h',
      '15.0 km/h',
      '12.9 km/h',
    ]);
  });

  test('a range names its unit once, and an end beyond the test as beyond', () => {
    const display = shown(cyclist);
    expect(plain(rangeWords(inside(275.2, 288.9), display, { sd: 4 }))).toBe('275–289 W');
    const open = { low: { value: 310, beyond: null }, high: { value: null, beyond: 'above' as const } };
    expect(plain(rangeWords(open, display, { sd: 4 }))).toBe('310 to above 340 W');
    const under = { low: { value: null, beyond: 'below' as const }, high: { value: 120, beyond: null } };
    expect(plain(rangeWords(under, display, { sd: 4 }))).toBe('below 100 to 120 W');
  });

  test('small shares are not rounded to nothing', () => {
    expect([0, 0.002, 0.5, 0.998, 1].map((share) => plain(percentWords(share)))).toEqual([
      '0 %',
      '< 1 %',
      '50 %',
      '> 99 %',
      '100 %',
    ]);
  });

  test('a threshold without an answer says so', () => {
    expect(thresholdFigure('LT2', null, shown(cyclist)).value).toBe('no answer');
  });
});

describe('controls', () => {
  test('error controls start at the usual size and move the error model, shares as percentages', () => {
    const gain = errorSlider('gain', HANDHELD);
    expect(gain).toMatchObject({ value: 7, unit: '%' });
    expect(errorsFrom(HANDHELD, { gain })).toEqual(HANDHELD);
    expect(errorsFrom(HANDHELD, { gain: { ...gain, value: 2 } }).gain).toBe(0.02);
  });

  test('groups of controls are joined; what a group lacks stays usual', () => {
    const offset = { ...errorSlider('offset', HANDHELD), value: 0.3 };
    const delay = { ...errorSlider('delay', HANDHELD), value: 25 };
    expect(errorsFrom(HANDHELD, { offset }, { delay })).toEqual({ ...HANDHELD, offset: 0.3, delay: 25 });
  });

  test('a choice of method holds the methods with that claim and no others', () => {
    const { options } = methodChoice('LT1', 'baseline-plus-0.5');
    const alone = METHODS.filter((m) => m.claim === 'LT1' && m.protocol === 'step' && !m.applies && !m.off);
    expect(options.map((o) => o.value)).toEqual(alone.map((m) => m.id));
  });

  test('an unknown effort is neither yes nor no: the last stage tells', () => {
    expect([wentToExhaustion('yes'), wentToExhaustion('no'), wentToExhaustion('unknown')]).toEqual([
      true,
      false,
      undefined,
    ]);
  });

  test('a grid of stages reads a file, marks faults, and refuses what is no table', () => {
    const grid = stageGrid({ csv: 'power (W),lactate (mmol/L)\n100,1.0\n150,2.1\n', sport: 'cycling' });
    expect(grid.value).toEqual({
      headings: ['power (W)', 'lactate (mmol/L)'],
      rows: [
        ['100', '1.0'],
        ['150', '2.1'],
      ],
    });
    expect(grid.check(grid.value).filter((mark) => mark.tone === 'problem')).toEqual([]);
    const broken = { ...grid.value, rows: [['100', 'high'], grid.value.rows[1]!] };
    expect(grid.check(broken)).toEqual(
      expect.arrayContaining([expect.objectContaining({ row: 0, column: 1, tone: 'problem' })]),
    );
    expect(() => grid.read('')).toThrow();
  });
});

describe('disagreements between methods', () => {
  const readings = usableReadings(cyclist, { toExhaustion: true });
  const sample = (methods: string[], error = NO_ERROR) =>
    sampleThresholds(readings, { methods, error, draws: 400, seed: 7 });

  test('without any error every difference is one, in order of intensity', () => {
    expect(disagreements(sample(['fixed-4.0', 'fixed-3.0']))).toEqual([
      {
        claim: 'LT2',
        lower: 'Fixed 3.0',
        higher: 'Fixed 4.0',
        // Straight lines between readings: 300 + 40 · 0.1 / 5 and 300 + 40 · 1.1 / 5 W.
        difference: expect.closeTo(8, 9),
      },
    ]);
  });

  test('methods for different thresholds are not compared', () => {
    expect(disagreements(sample(['fixed-2.0', 'fixed-4.0']))).toEqual([]);
  });

  test('errors that the methods do not share can explain a difference', () => {
    // By the errors alone the first turn point moves by tens of watts, far beyond its distance from this level.
    const methods = ['turn-point-1', 'minimum-equivalent'];
    const [exact, noisy] = [sample(methods), sample(methods, { ...HANDHELD, repeatability: 0.4 })];
    expect(disagreements(exact)).toHaveLength(1);
    expect(disagreements(noisy)).toEqual([]);
  });
});

test('tables of plain rows keep the order of their headings, round numbers and mark what is missing', () => {
  const { columns, rows } = tableOf(
    'T',
    [{ b: 1.256, a: 'x', c: null }],
    { a: 'A', b: 'B', c: 'C' },
    { decimals: 1 },
  );
  expect(columns.map((c) => [c.key, c.align])).toEqual([
    ['a', 'left'],
    ['b', 'right'],
    ['c', 'left'],
  ]);
  expect(rows).toEqual([{ a: 'x', b: '1.3', c: '–' }]);
});

test('the cautions name screening, hygiene, stopping, and that this is no diagnosis', () => {
  const text = cautionsMarkdown();
  for (const { title, points } of CAUTIONS) {
    expect(text).toContain(`#### ${title}`);
    expect(points.length).toBeGreaterThan(0);
  }
  expect(text).toMatch(
    /questionnaire[\s\S]*single-use lancets[\s\S]*Chest pain[\s\S]*Not a medical device and not a diagnosis/,
  );
});

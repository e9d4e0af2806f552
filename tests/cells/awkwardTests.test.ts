import { describe, expect, test, vi } from 'vitest';
import { expectSilence, grid, POWER, shown, stagesOf, textsOf } from './shown.ts';
import { type Moves, moveControls, openWorkbook } from './workbook.ts';

// The whole workbook runs in each test; a busy machine takes its time.
vi.setConfig({ testTimeout: 60_000 });

expectSilence();

describe('what else a test may bring', () => {
  const RECOVERY = ['minute', 'lactate (mmol/L)', 'mode'];
  const recovery = (...rows: (string | number)[][]): Moves => ({
    '22-recovery': { recovery: grid(RECOVERY, ...rows) },
  });

  test('samples after the end bring the individual anaerobic threshold in, and only they', async () => {
    const { text: without } = await shown();
    expect(without.get('50-thresholds')).not.toContain('Individual anaerobic');
    const samples = recovery(
      [1, 7.9, 'passive'],
      [3, 8.3, 'passive'],
      [5, 7.8, 'passive'],
      [7, 7.1, 'passive'],
    );
    const { text } = await shown(samples);
    expect(text.get('50-thresholds')).toMatch(/Individual anaerobic threshold\n\d+/);
    // Recovery counts from the last stage: without that stage there is nothing to count from.
    expect(text.get('52-last-stage')).toMatch(/Individual anaerobic threshold\n\d+\nno answer\n\d+/);
  });

  test('a sample that is only begun stops nothing', async () => {
    const { text } = await shown(recovery([1, '', '']));
    expect(text.get('50-thresholds')).not.toContain('Individual anaerobic');
  });

  test('exertion and oxygen uptake stand in the table where the test has them, and nowhere else', async () => {
    const headings = [...POWER, 'VO2 (ml/min)', 'RPE (6-20)'];
    const rows = [100, 140, 180, 220, 260, 300, 340].map((watts, i) => [
      watts,
      [1.0, 0.9, 1.0, 1.2, 1.7, 3.1, 7.9][i]!,
      800 + 10 * watts,
      8 + 2 * i,
    ]);
    const { text } = await shown(stagesOf(grid(headings, ...rows)));
    expect(text.get('50-thresholds')).toContain('Oxygen uptake ml/min');
    // Each watt above 0 W takes 10 ml/min on top of 800: a straight line; figures are rounded to 1 W at best.
    const [, watts, , uptake] = /LT2, [^\n]+\n(\d+)\n([\d.–]+\n)*?(\d{4})\b/.exec(text.get('72-chosen')!)!;
    expect(Math.abs(Number(uptake) - 800 - 10 * Number(watts))).toBeLessThanOrEqual(5);
    const { text: bare } = await shown(stagesOf(grid(POWER, ...rows.map((row) => row.slice(0, 2)))));
    expect(bare.get('50-thresholds')).not.toMatch(/Oxygen uptake|RPE/);
    expect(bare.get('72-chosen')).not.toContain('What else was measured there');
  });

  test('an unfinished last stage shows three answers', async () => {
    const { text: cut } = await shown();
    expect(cut.get('52-last-stage')).toMatch(/Dmax\n\d+\n\d+\n\d+/);
    expect(cut.get('52-last-stage')).toContain('63\u202f% was done');
  });

  test('what hangs on the last stage is rounded as in the table of thresholds', async () => {
    const { text } = await shown({ '60-meter': { repeatability: 0.5 } });
    const rows = [...text.get('52-last-stage')!.matchAll(/\n(\D[^\n]*)\n(\d+)\n(?:\d+|no answer)\n/g)];
    expect(rows.length).toBeGreaterThan(2);
    for (const [, method, watts] of rows)
      expect(text.get('50-thresholds'), method).toContain(`\n${method}\n${watts}\n`);
  });

  test('after a finished last stage nothing hangs on it', async () => {
    const { text: full } = await shown(
      stagesOf(grid(POWER, [120, 1.1], [160, 1.0], [200, 1.3], [240, 1.9], [280, 3.4], [320, 7.0])),
    );
    expect(full.get('52-last-stage')).toContain('The last stage was finished');
  });

  test('the agreement names who disagrees and which way the stages pull, and makes no average', async () => {
    const { text } = await shown();
    const agreement = text.get('75-agreement')!;
    expect(agreement).toMatch(/Of \d+ pairs \d+ lie further apart than the errors explain/);
    expect(agreement).toMatch(/Shorter stages put .* higher/);
    expect(agreement).not.toMatch(/\bmean\b/);
  });
});

describe('awkward tests', () => {
  test('six stages: methods that need seven say so', async () => {
    const { text: all } = await shown(
      stagesOf(grid(POWER, [120, 1.1], [160, 1.0], [200, 1.3], [240, 1.9], [280, 3.4], [320, 7.0])),
    );
    expect(all.get('50-thresholds')).toMatch(/needs at least 7 usable stages/i);
  });

  test('four stages', async () => {
    await shown(stagesOf(grid(POWER, [120, 1.1], [180, 1.2], [240, 2.0], [300, 5.2])));
  });

  test('three stages: the checks are shown, the curve says what it needs, the rest waits', async () => {
    const engine = await openWorkbook();
    await moveControls(engine, stagesOf(grid(POWER, [120, 1.1], [180, 1.4], [240, 4.0])));
    expect(textsOf(engine.state('30-checks.ts').shown).join()).toContain('3 usable stages');
    for (const cell of ['40-curve.ts', '50-thresholds.ts', '72-chosen.ts', '90-summary.ts']) {
      expect(engine.state(cell).problem?.message, cell).toMatch(
        /^Waits for stages.* needs at least 4 stages .* there are 3/,
      );
      expect(engine.state(cell).shown, cell).toBeUndefined();
    }
  });

  test('no heart rate: every sentence does without it', async () => {
    const { text: all } = await shown(
      stagesOf(
        grid(POWER, [100, 1.0], [140, 0.9], [180, 1.0], [220, 1.2], [260, 1.7], [300, 3.1], [340, 7.9]),
      ),
    );
    expect(all.get('76-heart-rate')).toContain('No heart rate in this test');
    expect(all.get('90-summary')).not.toMatch(/bpm|heart rate (?:up|from|\d)/);
  });

  test('a raised baseline: fixed 2.0 is refused, the rest goes on', async () => {
    const { text: all } = await shown(
      stagesOf(
        grid(POWER, [100, 2.6], [140, 2.5], [180, 2.6], [220, 2.9], [260, 3.6], [300, 5.4], [340, 9.8]),
      ),
    );
    expect(all.get('50-thresholds')).toMatch(/already at or above 2\.00/);
  });

  test('dips and a flat end: refusals are shown with their reason', async () => {
    const { text: all } = await shown(
      stagesOf(
        grid(POWER, [100, 1.4], [140, 0.8], [180, 1.5], [220, 0.9], [260, 1.3], [300, 1.2], [340, 1.4]),
      ),
    );
    expect(all.get('50-thresholds')).toMatch(/methods give no answer/);
  });

  test('stopped early: methods that use the end of the test refuse', async () => {
    const { text: all } = await shown({ '15-protocol': { effort: 'no' } });
    expect(all.get('50-thresholds')).toMatch(/needs a test to \(near\) exhaustion/);
  });

  test('a chosen method without an answer leaves sentences that say so', async () => {
    const { text: all } = await shown({
      '15-protocol': { effort: 'no' },
      '70-choice': { lt2: 'modified-dmax' },
    });
    expect(all.get('72-chosen')).toContain('no answer');
    expect(all.get('90-summary')).toContain('This test does not show it by the chosen method.');
  });

  test('a threshold that too many draws lose is not passed off as one', async () => {
    const flat = grid(
      POWER,
      [100, 2.6],
      [140, 2.5],
      [180, 2.6],
      [220, 2.4],
      [260, 2.9],
      [300, 3.6],
      [340, 4.3],
    );
    const { text } = await shown({
      ...stagesOf(flat),
      '35-model': { model: 'raw' },
      '70-choice': { lt2: 'fixed-4.0' },
    });
    expect(text.get('72-chosen')).toMatch(/not determined: \d+\u202f% of the draws give no answer/);
    expect(text.get('90-summary')).toContain('Do not rely on it');
    expect(text.get('80-bands')).toContain('No bands from these two thresholds');
  });

  test('nothing known of the athlete: no mass, no stage length, no seed', async () => {
    const { text } = await shown({
      '10-athlete': { bodyMass: null },
      '15-protocol': { stageMinutes: null, effort: 'unknown' },
      '63-draws': { seed: null },
    });
    expect(text.get('50-thresholds')).not.toContain('W/kg');
  });

  test('no error at all and the fewest draws', async () => {
    const off = (...names: string[]) => Object.fromEntries(names.map((name) => [name, 0]));
    const moves = {
      '60-meter': off('repeatability', 'repeatabilityShare', 'gain', 'offset', 'rounding'),
      '61-hands': off('delay', 'contamination', 'contaminationSize'),
      '61-machine': off('intensityScale', 'intensityJitter'),
      '63-draws': { draws: 200, seed: null },
    };
    const { text } = await shown(moves);
    expect(text.get('62-errors')).toContain('of 4\nmmol/L to 0.0\u202fmmol/L');
    expect(text.get('72-chosen')).toContain('no error set here moves it');
  });

  test('every error switched off: no range, no digits beyond the watt, and no claim to be exact', async () => {
    const switches = [
      'repeatability',
      'rounding',
      'delay',
      'contamination',
      'gain',
      'offset',
      'held',
      'device',
    ];
    const off = Object.fromEntries(switches.map((name) => [name, false]));
    const { text } = await shown({ '64-switches': off, '63-draws': { draws: 200 } });
    expect(text.get('90-summary')).toContain('No error that is set here moves it');
    expect(text.get('90-summary')).not.toContain('95 % interval');
    expect(text.get('90-summary')).not.toContain('In between');
    expect(text.get('80-bands')).toContain('Nothing is hatched: no error set here moves the thresholds');
    expect(text.get('80-bands')).not.toContain('Easy or threshold');
    expect(text.get('110-next')).not.toMatch(/100\u202f%/);
    expect(text.get('110-next')).toContain('which does not make it certain');
    expect(text.get('72-chosen')).toMatch(/\n\d\d\d\u202fW\nno error set here moves it\n/);
  });

  test.each(['raw', 'quadratic', 'cubic', 'quartic', 'two-segment', 'three-segment', 'spline'])(
    'every curve can be chosen: %s',
    async (model) => {
      await shown({ '35-model': { model } });
    },
  );

  test.each(['rest', 'first', 'lowest'])('every baseline can be chosen: %s', async (baseline) => {
    await shown({ '35-model': { baseline } });
  });

  test('rowing in watts shows the time for 500 m', async () => {
    const { text: all } = await shown({ '10-athlete': { sport: 'rowing' } });
    expect(all.get('90-summary')).toMatch(/\/500 m/);
  });
});

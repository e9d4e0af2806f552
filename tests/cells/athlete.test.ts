import { describe, expect, test, vi } from 'vitest';
import type { Grid } from '../../src/view/controls.ts';
import type { NoticeView, StackView } from '../../src/view/view.ts';
import type { Engine } from '../../src/workbook/engineTypes.ts';
import { expectSilence, grid, POWER, shown, stagesOf, textsOf } from './shown.ts';
import { cellsIn, moveControls, openWorkbook } from './workbook.ts';

// The whole workbook runs in each test; a busy machine takes its time.
vi.setConfig({ testTimeout: 60_000 });

expectSilence();
describe('the shipped workbooks', () => {
  test.each(['athlete', 'athlete-runner'] as const)(
    '%s runs without a document, error or warning',
    async (name) => {
      const { text } = await shown({}, name);
      expect(text.get('90-summary')).toMatch(/what your test says/i);
    },
  );

  test('cells are plain modules: one import runs them all', async () => {
    const summary = await import('../../cells/athlete/90-summary.ts');
    const { text } = await shown();
    expect(textsOf(summary.default).join('\n')).toBe(text.get('90-summary'));
  });

  test.each(['athlete-runner', 'athlete-own'])(
    '%s overrides cells of the athlete workbook, and adds none',
    (folder) => {
      const names = [...cellsIn('athlete').keys()];
      for (const name of cellsIn(folder).keys()) expect(names).toContain(name);
    },
  );

  test('the runner reads speed, pace and heart rate, the cyclist power and W/kg', async () => {
    const { text: runner } = await shown({}, 'athlete-runner');
    expect(runner.get('90-summary')).toMatch(/km\/h.*\/km.*bpm/s);
    expect(runner.get('90-summary')).not.toMatch(/\d\s?W\b/);
    const { text: cyclist } = await shown();
    expect(cyclist.get('90-summary')).toMatch(/W.*W\/kg.*bpm/s);
  });
});

describe('whose data it is', () => {
  const OWN = grid(POWER, [120, 1.1], [160, 1.0], [200, 1.3], [240, 1.9], [280, 3.4], [320, 7.0]);

  test('the page calls the readings invented until one of them is changed', async () => {
    const { engine, text } = await shown();
    expect(text.get('00-welcome')).toContain('all readings are invented');
    await moveControls(engine, stagesOf(OWN));
    const welcome = textsOf(engine.state('00-welcome.ts').shown).join();
    expect(welcome).toContain('These readings were entered');
    expect(welcome).not.toContain('are invented');
  });

  test('stages of another length than those of the demonstration are not taken for unfinished ones', async () => {
    const rows = [120, 160, 200, 240, 280, 320].map((watts, i) => ['3:00', watts, 1 + i ** 3 / 20]);
    const { text } = await shown(stagesOf(grid(['duration (min)', ...POWER], ...rows)));
    expect(text.get('30-checks')).not.toMatch(/was shorter than the others|% done/);
  });

  test('the empty workbook asks for stages, in every cell that needs them, and fills when they come', async () => {
    const { engine } = await shown({}, 'athlete-own');
    const asking = engine.states().filter((state) => state.phase === 'waiting');
    expect(asking.map((state) => state.name)).toContain('90-summary.ts');
    for (const { name, problem, shown } of asking) {
      expect(problem!.message, name).toBe(
        'Waits for the stages: at least 4, better 7 or more, each with its lactate.',
      );
      expect(shown).toBeUndefined();
    }
    expect(textsOf(engine.states().map((state) => state.shown)).join()).not.toContain('**invented**');
    await moveControls(engine, stagesOf(OWN));
    expect(engine.states().filter((state) => state.phase !== 'done')).toEqual([]);
    expect(textsOf(engine.state('90-summary.ts').shown).join()).toMatch(/what your test says/i);
  });

  test('a table being typed is not scolded before its first lactate', async () => {
    const { engine } = await shown({}, 'athlete-own');
    await moveControls(engine, stagesOf(grid(POWER, [120, ''])));
    expect(engine.states().filter((state) => state.phase === 'failed')).toEqual([]);
  });
});

describe('the summary for the athlete', () => {
  test('the figures follow the chosen method and no cell that does not read it runs again', async () => {
    const { engine, text } = await shown();
    expect(text.get('72-chosen')).toContain('Baseline + 0.5 ·');
    const runs = new Map(engine.states().map((s) => [s.name, s.runs]));
    await moveControls(engine, { '70-choice': { lt1: 'baseline-plus-1.0' } });
    expect(textsOf(engine.state('72-chosen.ts').shown).join()).toContain('Baseline + 1.0 ·');
    const again = engine.states().filter((s) => s.runs > runs.get(s.name)!);
    expect(again.map((s) => s.name)).toEqual([
      '68-narrow.ts',
      '69-not-inside.ts',
      '72-chosen.ts',
      '76-heart-rate.ts',
      '80-bands.ts',
      '85-planned.ts',
      '90-summary.ts',
      '105-review.ts',
      '125-hour.ts',
      '135-zones.ts',
      '148-retest.ts',
      '157-fuel.ts',
    ]);
  });

  test.each([
    [310, 'very likely above the second threshold', /still feels manageable does not decide it/],
    [285, 'more likely above the second threshold than not', /still feels manageable does not decide it/],
    [280, 'perhaps above the second threshold', /still feels manageable does not decide it/],
    [264, 'fit for threshold work', /Few draws put it above/],
    [150, 'more likely easy than threshold work', /long hours/],
  ])('%i W planned for threshold work is called %s', async (planned, verdict, why) => {
    const { text } = await shown({ '80-bands': { planned } });
    expect(text.get('85-planned')).toContain(`${planned}\u202fW: ${verdict}`);
    expect(text.get('85-planned')).toMatch(why);
  });
});

describe('what nobody planned', () => {
  test('is called an example, and no caution', async () => {
    const { engine, text } = await shown();
    expect(text.get('85-planned')).toMatch(/^Nothing is planned yet\. As an example, 3 % above/);
    const { items } = engine.state('85-planned.ts').shown as StackView;
    expect(items.map((item) => (item as NoticeView).tone)).toEqual([undefined, 'note']);
  });

  test('thresholds in reverse order have no chances', async () => {
    const reversed = { lt1: 'baseline-plus-1.0', lt2: 'dmax' };
    const { text } = await shown({ '70-choice': reversed });
    expect(text.get('85-planned')).toBe('');
    const { text: planned } = await shown({ '70-choice': reversed, '80-bands': { planned: 250 } });
    expect(planned.get('85-planned')).toContain('reverse order');
    expect(planned.get('72-chosen')).toContain('In reverse order');
    expect(planned.get('90-summary')).toContain('**At least one of the two is wrong:** Baseline + 1.0 puts');
  });

  test('thresholds in reverse order judge no session and plan none', async () => {
    const { text } = await shown({ '70-choice': { lt1: 'baseline-plus-1.0', lt2: 'dmax' } });
    expect(text.get('105-review')).toContain('compared with nothing: the chosen first threshold lies above');
    expect(text.get('105-review')).toContain('Above, by intensity\nnot assessable');
    expect(text.get('110-next')).toMatch(
      /min by feel\n.*\n?.*by feel: the chosen first threshold lies above/,
    );
    expect(text.get('125-hour')).toContain(
      'Told without the second threshold. **At least one of the two is wrong:**',
    );
    expect(text.get('125-hour')).toContain('Asked about an hour: power law, log-time decline.');
    const usual = await shown();
    expect(usual.text.get('125-hour')).toMatch(/Asked about an hour:.*second threshold/);
    expect(usual.text.get('125-hour')).not.toContain('Told without');
    expect(usual.text.get('72-chosen')).not.toContain('In reverse order');
    expect(usual.text.get('90-summary')).not.toContain('is wrong');
  });
});

describe('the summary tells', () => {
  test('what lies between the bands, and that it is invented', async () => {
    const { text } = await shown();
    const summary = text.get('90-summary')!;
    expect(summary).toMatch(
      /\*\*In between\*\*, 2\d\d–2\d\d\u202fW \([\d.–]+\u202fW\/kg\) and 2\d\d–2\d\d\u202fW \([\d.–]+\u202fW\/kg\), this test cannot say/,
    );
    expect(summary).toContain('readings are invented');
    const own = grid(POWER, [120, 1.1], [160, 1.0], [200, 1.3], [240, 1.9], [280, 3.4], [320, 7.0]);
    expect((await shown(stagesOf(own))).text.get('90-summary')).not.toContain('invented');
  });

  test.each([
    ['athlete', 'Pallarés 2016, cyclists'],
    ['athlete-runner', 'Cerezuela-Espejo 2018, runners'],
  ] as const)('%s: which change counts, as the table of each method has it', async (name, source) => {
    const { engine, text } = await shown({}, name);
    const says = /differ by up to ([\d.]+)\s\S+ at the first threshold and ([\d.]+)\s\S+ at the second/;
    const told = says.exec(text.get('90-summary')!)!.slice(1);
    const table = JSON.stringify(engine.state('69-not-inside.ts').shown);
    const least = [...table.matchAll(/"change":"([\d.]+)"/g)].map((found) => found[1]);
    expect(told).toEqual(least.slice(0, 2));
    expect(text.get('90-summary')).toContain(`(95 %; ${source})`);
  });

  test('only a runner is asked for a pace, and a switch to and fro keeps the answer', async () => {
    const asked = (engine: Engine) => engine.state('15-protocol.ts').controls.map(({ name }) => name);
    const engine = await openWorkbook();
    expect(asked(engine)).not.toContain('pace');
    const runner = await openWorkbook('athlete-runner');
    const texts = () => textsOf(runner.state('72-chosen.ts').shown).join();
    await moveControls(runner, { '15-protocol': { pace: 'min/mile' } });
    expect(texts()).toContain('/mile');
    await moveControls(runner, { '10-athlete': { sport: 'cycling' } });
    expect(asked(runner)).not.toContain('pace');
    await moveControls(runner, { '10-athlete': { sport: 'running' } });
    expect(texts()).toContain('/mile');
  });

  test('a runner’s ends as paces, slower below and faster above', async () => {
    const { text } = await shown({}, 'athlete-runner');
    const summary = text.get('90-summary')!;
    expect(summary).toMatch(
      /anywhere from [\d.]+ to [\d.]+\u202fkm\/h \(\d:\d\d\u202f\/km to \d:\d\d\u202f\/km\)/,
    );
    expect(summary).toMatch(/\*\*Easy:\*\* up to [\d.]+\u202fkm\/h \(\d:\d\d\u202f\/km or slower\)/);
    expect(summary).toMatch(/\*\*Hard:\*\* from [\d.]+\u202fkm\/h \(\d:\d\d\u202f\/km or faster\)/);
  });
});

describe('the checks of the test', () => {
  test('say at which stages', async () => {
    const slip = grid(POWER, [120, 1.1], [160, 1.0], [200, 1.2], [160, 1.8], [280, 3.4], [320, 7.0]);
    const checks = (await shown(stagesOf(slip))).text.get('30-checks')!;
    expect(checks).toMatch(/A stage is easier than the one before it\n.*Where: stage 4 \(160\u202fW\)\.\n/);
    expect(checks).toMatch(/more than one sample\n.*Where: stage 2 \(160\u202fW\), stage 4 \(160\u202fW\)\./);
  });

  test('give a lactate in the digits of a meter', async () => {
    const slip = grid(POWER, [120, 1.1], [160, 1.0], [200, 1.2], [240, 14], [280, 3.4], [320, 7.0]);
    const checks = (await shown(stagesOf(slip))).text.get('30-checks')!;
    expect(checks).toMatch(/14\.0\u202fmmol\/L at 240\u202fW stands out\n.*about \d\.\d\u202fmmol\/L\./);
  });
});

describe('figures in words', () => {
  test('an answer that is a stage is shown as the stage, however far the draws spread', async () => {
    const rows = [105, 137, 169, 201, 233, 265, 297, 329].map((watts, i) => [
      watts,
      [1.0, 0.9, 1.0, 1.1, 1.3, 2.2, 4.0, 8.0][i]!,
    ]);
    const { text } = await shown(stagesOf(grid(POWER, ...rows)));
    const [, watts] = /First rise\n([\d.]+)\n/.exec(text.get('50-thresholds')!)!;
    expect(rows.map(([at]) => at)).toContain(Number(watts));
  });

  test('every range names its level, and an open one says beyond what', async () => {
    const rows = [100, 140, 180, 220, 260].map((watts, i) => [watts, [1.0, 1.2, 1.6, 2.5, 4.6][i]!]);
    const { text } = await shown({ ...stagesOf(grid(POWER, ...rows)), '70-choice': { lt2: 'fixed-4.0' } });
    expect(text.get('90-summary')).toMatch(
      /anywhere from 2\d\d\u202fW to above the tested 260\u202fW \(95 % interval\)/,
    );
    expect((await shown()).text.get('80-bands')).toMatch(/10 % to where 90 % of the draws/);
  });

  test('the steadiest method is not one that its refusals or the tested range made steady', async () => {
    const { text, engine } = await shown();
    const [, name] = /steadiest is ([^(]+) \(/.exec(text.get('65-sensitivity')!)!;
    const rows = textsOf(engine.state('65-sensitivity.ts').shown).join('\n');
    expect(rows).toMatch(
      new RegExp(`${name!.replace(/[+.]/g, '\\$&')}\n[\\d.]+\n[\\d.]+–[\\d.]+\n[< ]*[0-5]?\u202f?`),
    );
  });

  test('a slip in the planned intensity and one in the table are told at the field and in the checks', async () => {
    const { engine, text } = await shown({ '80-bands': { planned: 500 } });
    expect(text.get('85-planned')).toContain('this test says nothing');
    await expect(engine.setControl('80-bands.ts', 'planned', 99_999)).rejects.toThrow(/from 0 to 800/);
    const slip = grid(POWER, [120, 1.1], [160, 1.0], [200, 1.3], [240, 1.9], [2500, 3.4]);
    await moveControls(engine, stagesOf(slip));
    expect(textsOf(engine.state('30-checks.ts').shown).join()).toContain('most likely a slip of the pen');
    const table = engine.state('20-stages.ts').controls[0]!.control as Grid;
    expect(table.check(slip).map(({ row }) => row)).toEqual([4]);
  });
});

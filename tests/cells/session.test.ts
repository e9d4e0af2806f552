import { describe, expect, test, vi } from 'vitest';
import { expectSilence, grid, shown, textsOf } from './shown.ts';
import { type Moves, moveControls, openWorkbook } from './workbook.ts';

// The whole workbook runs in each test; a busy machine takes its time.
vi.setConfig({ testTimeout: 60_000 });

expectSilence();

const HEADINGS = ['rep', 'power (W)', 'minute', 'lactate (mmol/L)', 'heart rate (bpm)', 'RPE', 'signs'];
const reps = (...rows: (string | number)[][]): Moves => ({
  '100-session': { session: grid(HEADINGS, ...rows) },
});
/** Four reps of eight minutes with these lactates. */
const four = (watts: number, lactates: (string | number)[], rpe: string | number = 14, sign = ''): Moves =>
  reps(...lactates.map((lactate, i) => [i + 1, watts, 8, lactate, '', rpe, i === 3 ? sign : '']));

describe('the demo sessions', () => {
  test('the cyclist’s was above the threshold though it felt manageable; the first card says so and what to do', async () => {
    const { text } = await shown();
    const review = text.get('105-review')!;
    expect(review).toMatch(/^## Was it at threshold\?\n+Too hard: above the second threshold\n/);
    expect(review).toMatch(/295\u202fW\*\*; the second threshold is about 28\d\u202fW/);
    expect(review).toMatch(/Rated 15, it felt manageable/);
    expect(review).toMatch(/\*\*Next time\.\*\* Go lower, by 3 to 5 % at least/);
    const [, from, to] = /× 8\u202fmin at (\d+)–(\d+)\u202fW/.exec(text.get('110-next')!)!;
    expect(Number(to)).toBeLessThanOrEqual(0.97 * 295);
    expect(Number(from)).toBeLessThan(Number(to));
  });

  test('the runner’s was on target: again with one rep more, or longer reps', async () => {
    const { text } = await shown({}, 'athlete-runner');
    expect(text.get('105-review')).toMatch(/^## Was it at threshold\?\n+On target\n/);
    expect(text.get('105-review')).toMatch(
      /Reps at \*\*1\d\.\d\u202fkm\/h \(\d:\d\d\u202f\/km\)\*\*; the second threshold is about 1\d\.\d\u202fkm\/h \(\d:/,
    );
    expect(text.get('90-summary')).toMatch(
      /\*\*In between\*\*, \d+\.\d–\d+\.\d\u202fkm\/h \(\d:\d\d–\d:\d\d\u202f\/km\)/,
    );
    expect(text.get('110-next')).toMatch(/5 × 8\u202fmin at 1\d\.\d–1\d\.\d\u202fkm\/h/);
    expect(text.get('110-next')).toMatch(
      /\*\*Or\*\* 2 × 15\u202fmin, up to 20 min: only while it stays no more than reasonably uncomfortable/,
    );
  });

  test('a workbook of one’s own plans without a session', async () => {
    const { text } = await shown({ '100-session': { session: grid(HEADINGS, [1, '', '', '', '', '', '']) } });
    expect(text.get('105-review')).toContain('No session yet');
    expect(text.get('110-next')).toMatch(/4 × 8\u202fmin at/);
  });
});

describe('what a reader enters', () => {
  test.each([
    ['chest pain', 'Stop: a doctor first', 'No session yet'],
    ['nausea', 'Too hard, whatever the lactate', 'Next session, after 48 easy hours: 3 × 8'],
  ])('%s overrides low readings', async (sign, verdict, next) => {
    const { text } = await shown(four(250, [1.6, 1.7, 1.6, 1.7], 11, sign));
    expect(text.get('105-review')).toContain(verdict);
    expect(text.get('110-next')).toContain(next);
  });

  test('signs do not hide that it was above the threshold, nor what heart rate and rating did', async () => {
    const { text } = await shown(
      reps(
        [1, 305, 8, 5.1, 164, 14, ''],
        [2, 305, 8, 6.2, 169, 15, 'heavy legs'],
        [3, 305, 8, 7, 174, 17, 'tingling'],
      ),
    );
    const review = text.get('105-review')!;
    expect(review).toContain('Too hard: above the second threshold, and with warning signs');
    expect(review).toMatch(/Noted: tingling\. .*Reps at \*\*305\u202fW\*\*; the second threshold is about/);
    expect(review).toMatch(
      /Heart rate rose by 10\u202fbpm from the first rep to the last, the rating rose by 3\./,
    );
  });

  test.each([
    ['no lactate at all', ['', '', '', ''], 260, 'Not assessable from lactate'],
    ['one reading', ['', 2, '', ''], 260, 'One reading late enough in its rep is too few'],
    [
      'no lactate, but clearly above by intensity',
      ['', '', '', ''],
      310,
      'Probably above the second threshold',
    ],
  ])('%s', async (_, lactates, watts, says) => {
    const { text } = await shown(four(watts, lactates));
    expect(text.get('105-review')).toContain(says);
    expect(text.get('105-review')).toContain('not assessable');
  });

  test('without lactate, intensity alone gives a chance', async () => {
    const { text } = await shown(four(260, ['', '', '', '']));
    expect(text.get('105-review')).toMatch(
      /No lactate was taken\. By intensity alone the chance of having been above is .*%/,
    );
  });

  test('lactate measured at the steady state takes the place of the level from the step test', async () => {
    const { text } = await shown({ '102-around': { steadyLactate: 8 } });
    expect(text.get('105-review')).toContain('at the threshold it settles near 8.0');
    expect(text.get('105-review')).not.toContain('Too hard');
  });

  test('readings that come too early are said to', async () => {
    const { text } = await shown(reps([1, 260, 3, 4, 160, 13, ''], [2, 260, 3, 5, 160, 13, '']));
    expect(text.get('105-review')).toContain('Every reading came too early in its rep, before minute 4.');
    expect(text.get('105-review')).toContain('too early to tell');
  });

  test('intensity and lactate that disagree are explained, each way', async () => {
    const { text: low } = await shown(four(310, [1.8, 1.9, 1.8, 1.8]));
    expect(low.get('105-review')).toMatch(
      /disagree\nBy intensity the session was above.*little carbohydrate/,
    );
    const { text: high } = await shown(four(250, [6, 7, 7, 7.5]));
    expect(high.get('105-review')).toMatch(
      /disagree\nBy intensity the session should have been under.*sweat/,
    );
  });

  test('low lactate with a hard rating is a mismatch; with an easy one it is below', async () => {
    const { text: hard } = await shown(four(240, [1.8, 1.9, 1.8, 1.8], 17));
    expect(hard.get('105-review')).toContain('Harder than lactate says');
    const { text: easy } = await shown(four(240, [1.8, 1.9, 1.8, 1.8], 11));
    expect(easy.get('105-review')).toContain('Below the second threshold, and easy');
    expect(easy.get('110-next')).toMatch(/23\d–240\u202fW/);
    const twice = { ...four(240, [1.8, 1.9, 1.8, 1.8], 11), '102-around': { before: 'below' } };
    const { text: again } = await shown(twice);
    expect(again.get('110-next')).toMatch(/–244\u202fW/);
  });

  test('a sweaty sample is pointed out', async () => {
    const { text } = await shown(four(265, [2.3, 4.6, 2.4, 2.4]));
    expect(text.get('105-review')).toMatch(
      /The reading of rep 2 \(4\.6.mmol\/L\) lies far above those before and after/,
    );
  });

  test('without a meter no readings are asked for', async () => {
    const { text } = await shown({ '107-plan': { meter: false } });
    expect(text.get('110-next')).toContain('speaking a short sentence must stay possible');
    expect(text.get('110-next')).not.toContain('mmol/L: ease');
  });

  test('a higher chance lowers the intensity', async () => {
    const upper = async (stay: number) =>
      Number(/–(\d+)\u202fW/.exec((await shown({ '107-plan': { stay } })).text.get('110-next')!)![1]);
    expect(await upper(99)).toBeLessThan(await upper(60));
  });

  test('a test without a second threshold leaves the plan to feel, and the review to lactate', async () => {
    const { text } = await shown({ '15-protocol': { effort: 'no' }, '70-choice': { lt2: 'modified-dmax' } });
    expect(text.get('110-next')).toContain('by feel');
    expect(text.get('105-review')).toContain('gives no second threshold to compare with');
  });

  test.each([
    [
      'a rep without time',
      reps([1, 290, '', 4, '', '', '']),
      /row 1, "minute": no time; expected the minute of the rep/,
    ],
    [
      'negative lactate',
      reps([1, 290, 8, -4, '', '', '']),
      /"-4" is not possible; expected 0\.1 to 35 mmol\/L/,
    ],
    [
      'reps out of order',
      reps([2, 290, 8, 4, '', '', ''], [1, 290, 8, 4, '', '', '']),
      /rep 1 stands after rep 2/,
    ],
    ['heart rate 400', reps([1, 290, 8, 4, 400, '', '']), /"400" is not possible; expected 25 to 250 bpm/],
  ])('%s gets a sentence, and the entries stay', async (_, moves, says) => {
    const engine = await openWorkbook();
    await moveControls(engine, moves);
    const state = engine.state('105-review.ts');
    expect(state.problem?.message).toMatch(says);
    expect(engine.state('90-summary.ts').phase).toBe('done');
    expect(engine.state('110-next.ts').phase).toBe('waiting');
    await moveControls(engine, four(295, [5, 6, 6, 6.5]));
    expect(textsOf(engine.state('105-review.ts').shown).join()).toContain('Too hard');
  });
});

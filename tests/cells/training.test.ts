import { describe, expect, test, vi } from 'vitest';
import type { Grid } from '../../src/view/controls.ts';
import type { StackView } from '../../src/view/view.ts';
import { grid, shown, textsOf } from './shown.ts';
import { type Moves, moveControls, openWorkbook } from './workbook.ts';

vi.setConfig({ testTimeout: 120_000 });
const STAGES = grid(
  ['power (W)', 'lactate (mmol/L)'],
  [120, 1.1],
  [160, 1.0],
  [200, 1.2],
  [240, 1.8],
  [280, 3.4],
  [320, 7.2],
);

describe('from the page alone', () => {
  test('the cyclist: the claim, the week, the retest and the fuel each begin with a verdict', async () => {
    const { text } = await shown();
    expect(text.get('125-hour')).toMatch(/^290\u202fW for an hour: (not likely|doubtful)\nThe chance is/);
    expect(text.get('125-hour')).toMatch(/no: An hour is outside its range: it holds from 2 to 20 min/);
    expect(text.get('135-zones')).toMatch(/^32\u202fmin were harder than meant/);
    expect(text.get('148-retest')).toMatch(
      /^No change of the second threshold is shown since “10 weeks earlier”/,
    );
    expect(text.get('152-effects')).toMatch(/^Nothing unusual on the day/);
    expect(text.get('157-fuel')).toMatch(/^1:30\u202fh of training: 30–60\u202fg\/h of carbohydrate/);
    expect(text.get('157-fuel')).toContain('a doctor or a licensed dietitian decides');
  });

  test('the runner: shorter stages cannot be compared; efforts are races', async () => {
    const { text } = await shown({}, 'athlete-runner');
    expect(text.get('148-retest')).toMatch(
      /^Cannot be compared with “3 months earlier”\nStages of 3\u202fmin then and 4\u202fmin now/,
    );
    expect(text.get('125-hour')).toMatch(/^12\.0\u202fkm\/h for an hour: /);
    expect(text.get('125-hour')).toMatch(/Reserve above it\n\d+\u202fm\n/);
  });
});

describe('could it be held for an hour', () => {
  const hour = async (moves: Moves) => (await shown(moves)).text.get('125-hour')!;

  test('nothing claimed: what an hour comes to', async () => {
    expect(await hour({ '122-claim': { claim: null } })).toMatch(/^About \d+\u202fW for an hour\n/);
  });

  test('a modest claim is likely', async () => {
    expect(await hour({ '122-claim': { claim: 230 } })).toMatch(/^230\u202fW for an hour: likely/);
  });

  test('no efforts: the second threshold alone answers', async () => {
    const text = await hour({ '120-efforts': { efforts: grid(['time', 'power (W)'], ['', '']) } });
    expect(text).toContain('Asked about an hour: second threshold.');
    expect(text).not.toContain('Critical intensity');
  });

  test('three short efforts and no threshold: it cannot be told, and critical power does not answer', async () => {
    const text = await hour({
      '120-efforts': { efforts: grid(['time', 'power (W)'], ['3:00', 384], ['6:00', 346], ['12:00', 322]) },
      '15-protocol': { effort: 'no' },
      '70-choice': { lt2: 'modified-dmax' },
    });
    expect(text).toMatch(/^It cannot be told from this\nShort efforts say too little about an hour/);
  });

  test('two weeks off take 2 to 5 %; nine weeks take the answer away', async () => {
    expect(await hour({ '123-since': { daysSince: 20, daysOff: 14 } })).toContain(
      'The break takes 2 to 5\u202f% off',
    );
    expect(await hour({ '123-since': { daysOff: 70 } })).toMatch(/^After more than 8 weeks without training/);
  });
});

describe('what is left over from the demonstration', () => {
  test('beside a test of one’s own it is left out, and each cell says so', async () => {
    const { text } = await shown({ '20-stages': { stages: STAGES } });
    expect(text.get('125-hour')).not.toContain('Critical intensity');
    // The claim of the demonstration is nobody's any more either.
    expect(text.get('125-hour')).toMatch(/^About \d+\u202fW for an hour/);
    expect(text.get('124-models')).toMatch(/^The best efforts: left out/);
    expect(text.get('135-zones')).toMatch(/^The training: left out/);
    expect(text.get('148-retest')).toMatch(/^The earlier test: left out/);
  });

  test('one’s own tables beside one’s own test count', async () => {
    const week = grid(['time (min)', 'power (W)'], [300, 140], [40, 300]);
    const { text } = await shown({ '20-stages': { stages: STAGES }, '130-week': { week } });
    expect(text.get('135-zones')).toMatch(/By time in zone/);
  });

  test('the empty workbook asks for them and waits', async () => {
    const { text } = await shown({ '20-stages': { stages: STAGES } }, 'athlete-own');
    expect(text.get('124-models')).toMatch(/^The best efforts: nothing entered yet/);
    expect(text.get('135-zones')).toMatch(/^The training: nothing entered yet/);
    expect(text.get('148-retest')).toMatch(/^The earlier test: nothing entered yet/);
  });
});

describe('bad entries are one sentence in their cell and stop nothing else', () => {
  test.each<[string, Moves, string, RegExp]>([
    [
      'efforts without a time',
      { '120-efforts': { efforts: grid(['time', 'power (W)'], ['', 300], ['5:00', 330]) } },
      '124-models',
      /^row 1, "time": no time; expected the time of every effort$/,
    ],
    [
      'a heart rate of 400',
      { '130-week': { week: grid(['time (min)', 'heart rate'], [40, 400]) } },
      '135-zones',
      /heart rate "400" is not possible; expected 25 to 250 bpm/,
    ],
    [
      'negative lactate in the earlier test',
      { '140-earlier': { earlier: grid(['power (W)', 'lactate'], [120, -1], [150, 1]) } },
      '147-compared',
      /lactate "-1" is not possible/,
    ],
    [
      'words for numbers among the pairs',
      { '144-repeats': { repeats: grid(['first', 'second'], [250, 'x'], [260, 262]) } },
      '146-own-repeats',
      /"x" is not a number above 0/,
    ],
  ])('%s', async (_, moves, cell, sentence) => {
    const engine = await openWorkbook();
    await moveControls(engine, moves);
    expect(engine.state(`${cell}.ts`).problem?.message).toMatch(sentence);
    expect(engine.state('90-summary.ts').phase).toBe('done');
    expect(engine.state('157-fuel.ts').phase).toBe('done');
    const [name, values] = Object.entries(moves)[0]!;
    expect(textsOf(engine.state(`${name}.ts`).shown).join()).toBeTypeOf('string');
    await moveControls(engine, {
      [name]: Object.fromEntries(
        Object.keys(values).map((key) => [key, grid(['first', 'second'], ['', ''])]),
      ),
    });
    expect(engine.state(`${cell}.ts`).phase).toBe('done');
  });
});

describe('retest', () => {
  const retest = async (moves: Moves) => (await shown(moves)).text.get('148-retest')!;

  test.each([
    ['meter', /Another lactate meter/],
    ['site', /fingertips read higher/],
    ['machine', /their scales differ/],
  ])('another %s: cannot be compared, with the reason', async (control, reason) => {
    const text = await retest({ '140-earlier': { [control]: 'no' } });
    expect(text).toMatch(/^Cannot be compared with “10 weeks earlier”/);
    expect(text).toMatch(reason);
    expect(text).not.toMatch(/\bchanged\n/);
  });

  const WEAKER = [1.2, 1.3, 1.6, 2.2, 3.8, 6.9];
  const STRONGER = [1.0, 1.0, 1.0, 1.0, 1.1, 1.2, 1.5, 2.2, 3.8, 6.9];

  test.each([
    ['yes', WEAKER, 'good', 'risen'],
    ['unknown', WEAKER, 'note', 'risen'],
    ['yes', STRONGER, 'note', 'fallen'],
  ] as const)('same conditions: %s, against %j: %s, has %s', async (same, lactates, tone, verb) => {
    const rows = lactates.map((lactate, i) => ['4:00', 120 + 30 * i, lactate]);
    const { engine } = await shown({
      '140-earlier': {
        earlier: grid(['duration (min)', 'power (W)', 'lactate'], ...rows),
        ...Object.fromEntries(['meter', 'site', 'machine', 'state'].map((name) => [name, same])),
      },
    });
    const [verdict] = engine.state('148-retest.ts').shown as StackView[];
    // First on the share page: whether the athlete has changed is what a coach asks first.
    expect(verdict).toMatchObject({
      inShort: true,
      items: [{ tone, title: `The second threshold has ${verb} since “10 weeks earlier”` }],
    });
  });

  test.each(['athlete', 'athlete-own', 'athlete-runner'] as const)(
    'the test at the top can be taken over as the earlier one when it is the reader’s own: %s',
    async (workbook) => {
      const { engine } = await shown({}, workbook);
      const offered = (cell: string) =>
        (engine.state(`${cell}.ts`).controls.find(({ name }) => name === 'earlier')!.control as Grid).offer;
      expect(offered('140-earlier')).toBeUndefined();
      await moveControls(engine, { '20-stages': { stages: STAGES } });
      expect(offered('140-earlier')).toEqual({ from: 'the test at the top', value: STAGES });
      expect(offered('142-another')).toBeUndefined();
      await moveControls(engine, { '140-earlier': { earlier: STAGES } });
      expect(offered('142-another')).toEqual({ from: 'the earlier test', value: STAGES });
    },
  );

  test('a third test stands beside the second', async () => {
    const rows = [120, 150, 180, 210, 240, 270].map((watts, i) => [
      '4:00',
      watts,
      [1.2, 1.3, 1.6, 2.2, 3.8, 6.9][i]!,
    ]);
    const earlier = grid(['duration (min)', 'power (W)', 'lactate'], ...rows);
    const text = await retest({ '142-another': { earlier, when: 'last year' } });
    expect(text).toContain('The second threshold has risen since “last year”');
    expect(text).toContain('No change of the second threshold is shown since “10 weeks earlier”');
  });

  test('one’s own repeats take the place of the published figure', async () => {
    const repeats = grid(['first', 'second'], [250, 251], [260, 258], [280, 281], [240, 241], [300, 298]);
    const { text } = await shown({ '144-repeats': { repeats } });
    expect(text.get('146-own-repeats')).toContain('used in place of the published figure');
    expect(text.get('148-retest')).toContain('your own repeats, 5 pairs');
  });

  test('two meters: bias, limits and the line between them', async () => {
    const meters = grid(['first', 'second'], [1.0, 1.3], [2.1, 2.5], [4.0, 4.6], [8.0, 8.9]);
    const { text } = await shown({ '144-repeats': { meters } });
    expect(text.get('146-own-repeats')).toMatch(/Second less first, mean\n\+0\.55\u202fmmol\/L/);
    expect(text.get('146-own-repeats')).toMatch(/second = 0\.\d\d \+ 1\.0\d+ · first/);
  });
});

describe('the day and the fuel', () => {
  test('illness: no advice on food, anywhere', async () => {
    const { text } = await shown({ '150-day': { illness: true } });
    expect(text.get('152-effects')).toContain('No advice on food is given here');
    expect(text.get('157-fuel')).toMatch(/^Ill: no advice on food from here/);
    expect(text.get('157-fuel')).not.toContain('g/h of carbohydrate');
  });

  test('low carbohydrate is flagged for what it does to lactate', async () => {
    const { text } = await shown({ '150-day': { lowCarbohydrate: true } });
    expect(text.get('152-effects')).toMatch(/Thresholds read too high\./);
  });

  test('without a body mass there is no demand, and rowing has no equation', async () => {
    const { text: noMass } = await shown({ '10-athlete': { bodyMass: null } });
    expect(noMass.get('157-fuel')).toMatch(/^No demand without a body mass/);
    const { text: rowing } = await shown({ '10-athlete': { sport: 'rowing' } });
    expect(rowing.get('157-fuel')).toMatch(/^No equation for this sport/);
  });
});

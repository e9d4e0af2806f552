import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { readArguments } from '../../src/cli/arguments.ts';
import { outputFor } from '../../src/cli/output.ts';
import type { Report } from '../../src/cli/report.ts';
import { METHODS } from '../../src/physiology/methods/index.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const TEN_PRE = 'tests/cli/files/10-pre.csv';
const CYCLIST = 'data/invented-cyclist.csv';
const RUNNER = 'data/invented-half-marathon-runner.csv';

/** What the command prints, with `input` on standard input. */
const print = (args: string[], input = '') => {
  const command = readArguments(args);
  if (command.do === 'batch') return expect.unreachable('a batch is not printed in one piece');
  return outputFor(command, (file) =>
    file === '-' ? new TextEncoder().encode(input) : readFileSync(`${root}${file}`),
  );
};

const report = (args: string[], input?: string): Report => JSON.parse(print([...args, '--json'], input));

const intensityOf = (from: Report, method: string) => {
  const estimate = from.estimates.find((candidate) => candidate.method === method);
  if (!estimate || 'refused' in estimate) return expect.unreachable(`${method} does not answer`);
  return estimate.intensity;
};

const IDS = [
  ['first-rise', 'LT1'],
  ['baseline-plus-0.3', 'LT1'],
  ['baseline-plus-0.4', 'LT1'],
  ['baseline-plus-0.5', 'LT1'],
  ['baseline-plus-1.0', 'LT1'],
  ['baseline-plus-1.5', 'LT2'],
  ['fixed-2.0', 'LT1'],
  ['fixed-3.0', 'LT2'],
  ['fixed-3.5', 'LT2'],
  ['fixed-4.0', 'LT2'],
  ['log-log', 'LT1'],
  ['minimum-equivalent', 'LT1'],
  ['minimum-equivalent-plus-1.0', 'LT2'],
  ['minimum-equivalent-plus-1.5', 'LT2'],
  ['dmax', 'LT2'],
  ['dmax-exponential', 'LT2'],
  ['modified-dmax', 'LT2'],
  ['modified-dmax-exponential', 'LT2'],
  ['turn-point-1', 'LT1'],
  ['turn-point-2', 'LT2'],
  ['individual-anaerobic', 'LT2'],
  ['fixed-slope', 'LT2'],
  ['second-derivative', 'LT2'],
  ['second-rise', 'LT2'],
  ['lactate-minimum', 'MLSS'],
  ['steady-state-bouts', 'MLSS'],
  ['reverse', 'MLSS'],
];

/**
 * Test 10_pre of Sylta et al. 2016. Figures from R 4.2 (`lm`, `nls`, package segmented) and, independently,
 * numpy 1.x: polynomial and exponential fits, closed forms for Dmax; the 4 mmol/L values 342.96 and 341.7 also
 * stand in the open course text on these data (Hammarstrom, chapters 12 and 16).
 */
const TEN_PRE_FIGURES: [string, Record<string, number>][] = [
  [
    '--curve cubic',
    {
      'fixed-4.0': 342.9644446416,
      'fixed-2.0': 307.138346,
      'minimum-equivalent': 244.683,
      'minimum-equivalent-plus-1.5': 314.271746,
      dmax: 273.0166021944,
      'modified-dmax': 315.225763,
      'dmax-exponential': 287.6998284,
      'log-log': 263.61418,
    },
  ],
  ['--curve cubic --baseline lowest', { 'baseline-plus-1.0': 303.479799, 'baseline-plus-1.5': 315.471911 }],
  ['--curve cubic --ends measured', { dmax: 273.7473979909 }],
  ['--curve raw', { 'fixed-4.0': 341.7464114833 }],
];

test('foreign headings are taken for what their units tell, as on the page, and the warnings say so', () => {
  const file = 'tests/data-in/files/corrected/foreign-headings-with-units.csv';
  const { stages, warnings } = report([file, '--draws', '0']);
  expect(stages).toBe(4);
  expect(warnings).toContain('"Puissance (W)" is taken for power (W), guessed by its unit.');
  expect(warnings).toContain('"Lactatémie (mmol/L)" is taken for lactate (mmol/L), guessed by its unit.');
  const known = report(
    ['-', '--draws', '0'],
    'power (W),lactate (mmol/L)\n120,1.1\n150,1.4\n180,2.6\n210,5.2\n',
  );
  expect(intensityOf(report([file, '--draws', '0']), 'fixed-4.0')).toBe(intensityOf(known, 'fixed-4.0'));
});

test('headings that nothing can be guessed from are refused as before', () => {
  expect(() => print(['-'], 'Puissance,Taux\n120,1.1\n150,1.4\n')).toThrow(
    /no row of headings|expected headings such as/,
  );
});

test('a spreadsheet is read as its table saved as text would be, and says which sheet; a recording says what it lacks', () => {
  const sheets = report(['tests/data-in/files/spreadsheets/three-sheets.xlsx']);
  expect(sheets.warnings[0]).toBe('Sheet "Winter & spring" was read, the first with entries of 3.');
  const plain = report(['tests/data-in/files/spreadsheets/plain.xlsx']);
  expect(plain.stages).toBe(3);
  expect(() => print(['tests/data-in/files/activities/laps.fit'])).toThrow(
    'laps.fit: a recording, which holds no lactate; expected a table',
  );
});

describe('estimate --json', () => {
  test.each(TEN_PRE_FIGURES)('test 10_pre with %s, to 0.001 W', (options, figures) => {
    const json = report([TEN_PRE, ...options.split(' '), '--draws', '0']);
    for (const estimate of json.estimates)
      expect(estimate).toMatchObject('refused' in estimate ? {} : { interval: null, refusedShare: 0 });
    for (const [method, expected] of Object.entries(figures))
      expect(Math.abs(intensityOf(json, method) - expected), method).toBeLessThan(1e-3);
  });

  test('has the fields it promises, every method once and in order', () => {
    const json = report([RUNNER]);
    expect(Object.keys(json)).toEqual(['file', 'sport', 'unit', 'stages', 'warnings', 'estimates']);
    expect(json).toMatchObject({ file: RUNNER, sport: 'running', unit: 'km/h', stages: 8 });
    expect(json.warnings[0]).toMatch(/^Invented data/);
    expect(json.estimates.map(({ method, claim }) => [method, claim])).toEqual(IDS);
    for (const estimate of json.estimates) {
      if ('refused' in estimate) {
        expect(Object.keys(estimate)).toEqual(['method', 'claim', 'refused']);
        expect(estimate.refused).toEqual({
          code: expect.stringMatching(/^E_[A-Z_]+$/),
          reason: expect.any(String),
        });
        continue;
      }
      expect(Object.keys(estimate)).toEqual(
        'method claim curve intensity lactate heartRate interval refusedShare warnings'.split(' '),
      );
      expect(estimate.intensity).toBeGreaterThanOrEqual(6);
      expect(estimate.intensity).toBeLessThanOrEqual(13);
      const [low, high] = estimate.interval ?? [0, 0];
      expect(low).toBeLessThanOrEqual(high);
    }
    // Lactate over speed falls from the first stage on in this athlete's cubic, so that the method must refuse.
    expect(json.estimates[11]).toMatchObject({ method: 'minimum-equivalent', refused: { code: 'E_EDGE' } });
  });

  test('the same seed gives the same intervals, another seed others; no draws, none', () => {
    const intervals = (...args: string[]) =>
      report([CYCLIST, ...args]).estimates.map((e) => ('refused' in e ? null : e.interval));
    const first = intervals('--seed', '5', '--draws', '300');
    const again = intervals('--seed', '5', '--draws', '300');
    const other = intervals('--seed', '6', '--draws', '300');
    const none = intervals('--draws', '0');
    expect(first).toEqual(again);
    expect(first).not.toEqual(other);
    expect(first.some((interval) => interval !== null)).toBe(true);
    expect(none.every((interval) => interval === null)).toBe(true);
  });

  test('an interval with an end beyond the tested range is null, and warning and table say above what', () => {
    // 4 mmol/L is reached in the last stage only, so that some draws do not reach it.
    const text = 'power,lactate\n100,1.0\n140,1.2\n180,1.6\n220,2.5\n260,4.6\n';
    const fixed4 = report(['-'], text).estimates.find((e) => e.method === 'fixed-4.0');
    expect(fixed4).toMatchObject({ interval: null });
    expect(print(['-'], text)).toMatch(/^Fixed 4\.0 +LT2 +2\d\d +2\d\d to above 260 /m);
    const warnings = expect.arrayContaining([
      expect.stringMatching(
        /^The 95 % interval is open: its lower end lies at 2\d\d\u202fW, its upper end above the tested 260\u202fW\.$/,
      ),
      expect.stringMatching(/^No answer in \d\.\d % of the draws\.$/),
    ]);
    expect(fixed4).toMatchObject({ warnings });
  });

  test('a rower in watts, a rower in splits, a runner in paces', () => {
    const curve = ['0.9', '1.0', '1.3', '2.1', '4.4'];
    const table = (heading: string, entries: string[]) =>
      [`${heading};La`, ...entries.map((entry, i) => `${entry};${curve[i]}`)].join('\n');
    const read = (text: string, ...args: string[]) => report(['-', '--draws', '0', ...args], text);
    const watts = read(table('W', ['150', '180', '210', '240', '270']), '--sport', 'rowing');
    expect(watts).toMatchObject({ file: 'standard input', sport: 'rowing', unit: 'W' });
    const splits = read(table('split /500 m', ['2:15', '2:08', '2:02', '1:57', '1:52']));
    expect(splits).toMatchObject({ sport: 'rowing', unit: 'km/h' });
    const paces = read(table('min/km', ['6:00', '5:30', '5:00', '4:30', '4:00']));
    expect(paces).toMatchObject({ sport: 'running', unit: 'km/h' });
    // A straight line in speed between 13.333 km/h (2.1) and 15 km/h (4.4), not in pace.
    expect(intensityOf(paces, 'fixed-4.0')).toBeCloseTo(40 / 3 + (1.9 / 2.3) * (5 / 3), 9);
  });
});

describe('estimate as text', () => {
  test('a runner: speed with interval, paces, heart rate, refusals, warnings, seed and caution', () => {
    const stdout = print([RUNNER]);
    expect(stdout).toContain('2000 draws, seed 1');
    expect(stdout).toMatch(/^method +claim +km\/h +95 % interval +min\/km +min\/mile +mmol\/L +bpm +curve$/m);
    expect(stdout).toMatch(
      /^Fixed 4\.0 +LT2 +1\d\.\d +1\d\.\d to 1\d\.\d +5:\d\d +8:\d\d +4\.0 +17\d +raw$/m,
    );
    expect(stdout).toMatch(/^No answer\n {2}Minimum equivalent: /m);
    expect(stdout).toContain('Invented data');
    expect(stdout).toMatch(/no medical finding/);
  });

  test('a cyclist with a body mass: W/kg', () => {
    const stdout = print([TEN_PRE, '--draws', '0', '--curve', 'cubic']);
    // 342.96 W / 75.6 kg
    expect(stdout).toMatch(/^Fixed 4\.0 +LT2 +343 +- +4\.54 +4\.0 +167 +cubic$/m);
  });

  test('answers without an interval are rounded, answers that are a stage are not', () => {
    const draws = print([TEN_PRE]);
    // 275 W is a stage of this test; the step there is 25 W.
    expect(draws).toMatch(/^First rise +LT1 +275 +\d+ to \d+ /m);
    expect(print([TEN_PRE, '--draws', '0'])).toMatch(/^Fixed 4\.0 +LT2 +342 +- /m);
    expect(print([RUNNER, '--draws', '0'])).toMatch(/^Fixed 4\.0 +LT2 +1\d\.\d +- /m);
  });

  test('the sizes of the meter’s errors are told, and a bench analyser has narrower intervals', () => {
    expect(print([CYCLIST])).toContain(
      'Standard deviations: repeatability 0.15 mmol/L and 4 %, calibration 7 % and 0.1 mmol/L (our rule), display 0.1 mmol/L',
    );
    const width = (...args: string[]) => {
      const dmax = report([CYCLIST, ...args]).estimates.find((e) => e.method === 'dmax')!;
      const [low, high] = ('refused' in dmax ? null : dmax.interval) ?? [];
      return high! - low!;
    };
    expect(width('--meter', 'bench')).toBeLessThan(width());
    expect(print([CYCLIST, '--meter', 'bench'])).toContain('errors of a bench analyser, 2000 draws');
  });

  test('body mass and exhaustion as the reader says', () => {
    // 342.96 W / 80 kg
    expect(print([TEN_PRE, '--draws', '0', '--curve', 'cubic', '--mass', '80'])).toMatch(
      /^Fixed 4\.0 .* 4\.29 /m,
    );
    const said = (...args: string[]) => print([TEN_PRE, '--draws', '0', ...args]);
    // Names that hold a comma are kept apart.
    expect(said()).toMatch(/Nothing says .*\. Dmax; Exponential Dmax; Modified Dmax; /);
    expect(said('--exhaustion', 'yes')).not.toContain('Nothing says');
    expect(said('--exhaustion', 'no')).not.toBe(said('--exhaustion', 'yes'));
  });

  test('columns line up', () => {
    const stdout = print([CYCLIST]);
    const table = stdout.split('\n\n').find((part) => part.startsWith('method'))!;
    const [heading, ...rows] = table.split('\n');
    expect(rows.length).toBeGreaterThanOrEqual(14);
    for (const row of rows) expect(row).toHaveLength(heading!.length);
  });
});

const FILES = 'tests/cli/files';

describe('more than a step test', () => {
  const only = (from: Report, method: string) => from.estimates.find((e) => e.method === method)!;
  const codes = (from: Report) =>
    new Map(from.estimates.map((e) => [e.method, 'refused' in e ? e.refused.code : null]));

  test('recovery samples: without them a reason, with them an answer; nothing else moves', () => {
    const bare = report([TEN_PRE, '--draws', '0']);
    const recovered = report([TEN_PRE, '--recovery', `${FILES}/invented-recovery.csv`, '--draws', '0']);
    expect(only(bare, 'individual-anaerobic')).toMatchObject({ refused: { code: 'E_NO_RECOVERY' } });
    expect(only(recovered, 'individual-anaerobic')).toMatchObject({ curve: 'exponential', claim: 'LT2' });
    const others = (r: Report) => r.estimates.filter((e) => e.method !== 'individual-anaerobic');
    expect(others(recovered)).toEqual(others(bare));
  });

  test.each([
    ['bouts', 'steady-state-bouts', 260, 3],
    ['lactate-minimum', 'lactate-minimum', 233.045, 7],
    ['reverse', 'reverse', 293.606, 8],
  ])(
    '--protocol %s: its own method answers, the others say why not',
    (protocol, method, intensity, stages) => {
      // The figures are those of tests/references/protocols (numpy).
      const json = report([`${FILES}/invented-${protocol}.csv`, '--protocol', protocol, '--draws', '200']);
      expect(json.stages).toBe(stages);
      expect(intensityOf(json, method)).toBeCloseTo(intensity, 3);
      for (const [id, code] of codes(json)) if (id !== method) expect(code, id).toBe('E_PROTOCOL');
      expect(json.estimates.map((e) => e.method)).toEqual(IDS.map(([id]) => id));
    },
  );

  test('as text, methods for another test are not named', () => {
    const text = print([`${FILES}/invented-bouts.csv`, '--protocol', 'bouts', '--draws', '0']);
    expect(text).toMatch(/^\S+: cycling, 3 bouts/);
    expect(text).toContain('Steady-state bouts');
    expect(text).not.toMatch(/Dmax|Lactate minimum/);
    expect(print([TEN_PRE, '--draws', '0'])).toMatch(
      /No answer\n {2}Individual anaerobic threshold: It needs lactate samples/,
    );
  });

  test('a slope of one’s own, and the anchor of the modified Dmax', () => {
    expect(codes(report([TEN_PRE, '--draws', '0'])).get('fixed-slope')).toBe('E_SCALE');
    expect(codes(report([TEN_PRE, '--slope', '0.02', '--draws', '0'])).get('fixed-slope')).toBeNull();
    const said = (...args: string[]) =>
      JSON.stringify(only(report([TEN_PRE, '--draws', '0', ...args]), 'modified-dmax'));
    expect(said('--anchor', 'baseline')).toContain('over the baseline');
    expect(said()).not.toContain('over the baseline');
  });

  test('several files: an array in their order, each as it would be alone', () => {
    const both: Report[] = JSON.parse(print([TEN_PRE, RUNNER, '--json', '--draws', '50']));
    expect(both).toEqual([report([TEN_PRE, '--draws', '50']), report([RUNNER, '--draws', '50'])]);
    const text = print([TEN_PRE, RUNNER, '--draws', '0']);
    expect(text.indexOf(`${TEN_PRE}:`)).toBe(0);
    expect(text.indexOf(`${RUNNER}:`)).toBeGreaterThan(0);
  });

  test('a broken file among several: its name, and nothing printed', () => {
    expect(() => print([TEN_PRE, '-'], 'power,lactate\n100,much\n150,2\n')).toThrow(
      /standard input, line 2.*much/,
    );
  });
});

describe('--list', () => {
  const { methods } = JSON.parse(print(['--list', '--json'])) as {
    methods: { id: string; claim: string; source: string; needs: string[] }[];
  };

  test('every method with claim, source and needs', () => {
    expect(methods.map((m) => m.id)).toEqual(METHODS.map((m) => m.id));
    for (const m of methods) {
      expect(Object.keys(m)).toEqual(['id', 'claim', 'source', 'needs']);
      expect(m.needs.length).toBeGreaterThan(0);
    }
    expect(methods.find((m) => m.id === 'individual-anaerobic')!.needs.join()).toMatch(
      /exhaustion.*recovery/,
    );
    expect(methods).toEqual(
      expect.arrayContaining(IDS.map(([id, claim]) => expect.objectContaining({ id, claim }))),
    );
  });

  test('as text', () => {
    const text = print(['--list']);
    for (const { id, source } of methods) expect(text).toContain(`  ${id}: ${source}`);
  });
});

test('the sample data say that they are invented', () => {
  for (const file of [CYCLIST, RUNNER])
    expect(readFileSync(`${root}${file}`, 'utf8')).toMatch(/^# Invented data/);
});

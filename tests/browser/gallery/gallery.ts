// Every kind of result, control and cell state on one page, to look at in both themes and at several widths.
import type { GridMark, GridValue } from '../../../src/base/grid.ts';
import { InputError } from '../../../src/base/inputError.ts';
import type { WorkbookPage } from '../../../src/page/workbookPage.ts';
import { choice, grid, numberField, slider, textField, toggle } from '../../../src/view/controls.ts';
import { chart, figures, folded, notice, prose, stack, table } from '../../../src/view/view.ts';
import type { CellState } from '../../../src/workbook/engineTypes.ts';
import { FakeEngine } from '../support/fakeEngine.ts';
import '../../../src/look/tokens.css';
import '../../../src/look/results.css';
import '../../../src/look/page.css';
import '../../../src/page/workbookPage.ts';

const POINTS = [
  [100, 1.1],
  [140, 1.0],
  [180, 1.3],
  [220, 1.9],
  [260, 3.2],
  [300, 6.1],
] as const;

function check(value: GridValue): GridMark[] {
  const column = value.headings.indexOf('lactate (mmol/L)');
  const marks: GridMark[] = value.rows.flatMap((row, at): GridMark[] =>
    Number.isNaN(Number(row[column] || 'x'))
      ? [
          {
            row: at,
            column,
            tone: 'problem',
            text: `"${row[column]}" is not a number; write a lactate in mmol/L`,
          },
        ]
      : [],
  );
  return [...marks, { row: 6, column: -1, tone: 'note', text: 'the last stage was not completed' }];
}

const stages = grid({
  label: 'Stages',
  help: 'One row a stage. Invented numbers.',
  value: {
    headings: ['stage', 'duration (min)', 'power (W)', 'heart rate (1/min)', 'lactate (mmol/L)'],
    rows: POINTS.map(([power, lactate], i) => [
      String(i + 1),
      '4',
      String(power),
      String(110 + 12 * i),
      String(lactate),
    ]).concat([['7', '2.5', '340', '186', '9,x']]),
  },
  suggestions: ['RPE', 'speed (km/h)'],
  read: () => {
    throw new InputError('line 1 has no heading for lactate; expected one of lactate, La, mmol/L');
  },
  check,
});

const meter = slider({
  label: 'Meter repeatability',
  unit: 'mmol/L',
  min: 0,
  max: 0.5,
  step: 0.01,
  value: 0.15,
  help: 'Standard deviation of repeated readings of one sample.',
});
const controls = [
  { name: 'meter', control: meter, value: 0.15 },
  {
    name: 'mass',
    control: numberField({ label: 'Body mass', unit: 'kg', value: 68.5, min: 30, max: 200, step: 0.1 }),
    value: 68.5,
  },
  {
    name: 'sport',
    control: choice({
      label: 'Sport',
      value: 'cycling',
      options: ['cycling', 'running', 'rowing'].map((value) => ({ value, label: value })),
    }),
    value: 'cycling',
  },
  { name: 'log', control: toggle({ label: 'Logarithmic axis', value: true }), value: true },
  { name: 'who', control: textField({ label: 'Athlete', value: 'Invented rider' }), value: 'Invented rider' },
];

const curve = chart({
  title: 'Lactate against power, with both thresholds',
  summary: 'Lactate stays near 1 mmol/L up to 180 W and rises ever faster above; LT1 at 178 W, LT2 at 251 W.',
  draw: ({ Plot, width }) =>
    Plot.plot({
      width,
      height: Math.min(360, width * 0.6),
      style: 'background: none; color: var(--ink); font-family: inherit; overflow: visible',
      x: { label: 'Power (W)' },
      y: { label: 'Lactate (mmol/L)', grid: true, domain: [0, 7] },
      marks: [
        Plot.ruleX([178], { stroke: 'var(--first)', strokeWidth: 2 }),
        Plot.ruleX([251], { stroke: 'var(--second)', strokeWidth: 2 }),
        Plot.line(POINTS, { x: '0', y: '1', curve: 'natural', strokeWidth: 2 }),
        Plot.dot(POINTS, { x: '0', y: '1', fill: 'var(--paper)', stroke: 'currentColor', r: 4 }),
      ],
    }) as SVGSVGElement,
  data: table({
    caption: '',
    columns: [
      { key: 'power', heading: 'Power', unit: 'W' },
      { key: 'lactate', heading: 'Lactate', unit: 'mmol/L' },
    ],
    rows: POINTS.map(([power, lactate]) => ({ power: String(power), lactate: lactate.toFixed(1) })),
  }),
});

const methods = table({
  caption: 'Thresholds by method',
  columns: [
    { key: 'method', heading: 'Method' },
    { key: 'power', heading: 'Power', unit: 'W' },
    { key: 'interval', heading: '95 % interval', unit: 'W', align: 'right' },
    { key: 'lactate', heading: 'Lactate', unit: 'mmol/L' },
    { key: 'heart', heading: 'Heart rate', unit: '1/min' },
    { key: 'note', heading: 'Remark' },
  ],
  rows: [
    { method: 'Log-log', power: '171', interval: '158 – 189', lactate: '1.2', heart: '134', note: '' },
    {
      method: 'Baseline + 0.5',
      power: '178',
      interval: '164 – 190',
      lactate: '1.5',
      heart: '136',
      note: '',
      tone: 'strong',
    },
    {
      method: 'Modified Dmax',
      power: '251',
      interval: '243 – 262',
      lactate: '2.9',
      heart: '156',
      note: 'of the cubic',
    },
    {
      method: 'Fixed 8',
      power: null,
      interval: null,
      lactate: null,
      heart: null,
      note: 'refused: above the highest reading',
      tone: 'muted',
    },
  ],
  note: 'Intervals from 1,000 draws of the readings within the error of the meter.',
});

const SHOWN: Record<string, Partial<CellState>> = {
  'welcome.ts': {
    shown: prose`
      # One rider, one step test
      An **invented** cyclist did a step test on an indoor trainer. Each number below follows from the cells beside it:
      change the code or a setting, and what depends on it changes too.

      - *First threshold*: lactate begins to rise above its baseline
      - *Second threshold*: lactate production and removal part, \`modified Dmax\` here

      See Cheng and others 1992, [Int J Sports Med 13:518](https://example.org/cheng).
    `,
  },
  'stages.ts': {
    controls: [{ name: 'stages', control: stages, value: stages.value }],
    shown: stages,
    exports: ['stages', 'default'],
  },
  'settings.ts': { controls, shown: undefined, exports: controls.map((entry) => entry.name) },
  'curve.ts': {
    imports: ['stages.ts', 'settings.ts'],
    exports: ['curve', 'default'],
    shown: stack(
      figures(
        {
          label: 'First threshold',
          value: '178',
          unit: 'W',
          range: '164 – 190 W',
          note: '2.6 W/kg, 136 beats/min',
          tone: 'first',
        },
        {
          label: 'Second threshold',
          value: '251',
          unit: 'W',
          range: '243 – 262 W',
          note: '3.7 W/kg, 156 beats/min',
          tone: 'second',
        },
      ),
      curve,
    ),
  },
  'methods.ts': {
    imports: ['curve.ts'],
    shown: stack(methods, folded('What the methods assume', 'Each reads the **fitted curve**.', methods)),
  },
  'checks.ts': {
    imports: ['stages.ts', 'gone.ts'],
    shown: stack(
      notice(
        'caution',
        'The last stage was not completed',
        'It lasted 2.5 of 4 min; its reading is *too low* for its power.',
      ),
      notice('problem', 'Lactate falls by more than the meter error', 'Stage 2 is below stage 1.'),
      notice('good', 'The baseline is settled'),
      notice('note', 'Blood was taken from the earlobe'),
    ),
    warnings: [
      {
        message: 'export let: readers see the value at the end of the run',
        hint: 'Use const.',
        line: 1,
        column: 1,
      },
    ],
  },
  'odd.ts': {
    shown: {
      name: 'anything',
      list: [1, 2, 3],
      nested: { deep: { deeper: { deepest: 1 } } },
      at: new Float64Array(20),
    },
  },
  'broken.ts': {
    imports: ['curve.ts'],
    phase: 'failed',
    shown: 'What it showed before.',
    problem: {
      message: 'curvature is not defined',
      hint: 'Import it or define it; curve.ts exports curve.',
      line: 3,
      column: 16,
    },
  },
  'after.ts': {
    imports: ['broken.ts'],
    phase: 'waiting',
    shown: figures({ label: 'Time above the second threshold', value: '18', unit: 'min' }),
    problem: { message: 'waits for broken', hint: '', line: null, column: null },
  },
};

const CODE = `import { readings } from './stages.ts';
import { fitCurve, curveChart } from '#hourline';

// The third degree follows the readings without chasing their error.
export const curve: Curve = fitCurve(readings, { model: 'cubic', degree: 3 });
const label = \`LT1 at \${curve.first} W\`;

export default curveChart(curve, readings);
`;

const cells = Object.keys(SHOWN).map((name) => ({ name, text: CODE }));
const engine = new FakeEngine(cells, (_text, name, values) => {
  const result = SHOWN[name] ?? {};
  const moved = result.controls?.map((entry) => ({ ...entry, value: values[entry.name] ?? entry.value }));
  return { ...result, ...(moved ? { controls: moved } : {}) };
});
const page = document.createElement('hour-page') as WorkbookPage;
engine.onState = (state) => page.stateChanged(state);
engine.onCells = (all) => page.cellsChanged(all);
page.library = (name) =>
  name === 'plot' ? import('@observablehq/plot') : import('../../../src/page/editor/index.ts');
page.toolkitNames = ['fitCurve', 'curveChart', 'slider', 'prose'];
page.shipped = cells.map((cell, i) => (i === 3 ? { ...cell, text: '' } : cell));
page.engine = engine;
document.documentElement.dataset.theme = new URLSearchParams(location.search).get('theme') ?? 'light';
document.body.append(page);
await engine.run();

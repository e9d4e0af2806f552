import type { BandsChartData } from '../../src/charts/bandsChart.ts';
import type { CurveChartData } from '../../src/charts/curveChart.ts';
import type { HeartRateChartData } from '../../src/charts/heartRateChart.ts';
import type { ModelsChartData } from '../../src/charts/modelsChart.ts';
import type { SensitivityChartData, SensitivityRow } from '../../src/charts/sensitivityChart.ts';
import type { SessionChartData } from '../../src/charts/sessionChart.ts';
import type { ThresholdsChartData } from '../../src/charts/thresholdsChart.ts';
import type { Claim } from '../../src/physiology/methods/method.ts';

/** Invented pictures for looking at the charts and for testing how they are laid out; no physiology in here. */
const X = [120, 150, 180, 210, 240, 270, 300, 318.75];
const Y = [1.4, 0.9, 1.1, 1.2, 1.7, 2.2, 4.1, 7.2];
const AT = Array.from({ length: 120 }, (_, i) => 120 + (i * (318.75 - 120)) / 119);
const shape = (x: number, bend: number) => 1 + 6.2 * Math.exp((x - 318.75) / bend);
const line = (name: string, bend: number) => ({ name, x: AT, y: AT.map((x) => shape(x, bend)) });
const SD = Y.map((y) => Math.hypot(0.15, 0.04 * y));

export const curveSample: CurveChartData = {
  axis: 'power',
  x: X,
  y: Y,
  readingSd: SD,
  curves: [line('cubic', 26), line('exponential plus constant', 22), line('smoothing spline', 30)],
  title: 'Lactate against power',
  summary: 'Lactate stays near 1 mmol/L up to 210 W and rises to 7.2 mmol/L at 319 W.',
};

interface Answer {
  name: string;
  claim: Claim;
  intensity: number;
  sd: number;
}

const ANSWERS: Answer[] = [
  { name: 'First sustained rise', claim: 'LT1', intensity: 210, sd: 0 },
  { name: 'Baseline + 0.5 mmol/L', claim: 'LT1', intensity: 236, sd: 9 },
  { name: 'Baseline + 1.0 mmol/L', claim: 'LT1', intensity: 257, sd: 6 },
  { name: 'Log-log breakpoint', claim: 'LT1', intensity: 262, sd: 19 },
  { name: 'Minimum lactate equivalent', claim: 'LT1', intensity: 214, sd: 9 },
  { name: 'Fixed 4.0 mmol/L', claim: 'LT2', intensity: 299, sd: 4 },
  { name: 'Minimum lactate equivalent + 1.5 mmol/L', claim: 'LT2', intensity: 279, sd: 4 },
  { name: 'Exponential Dmax curve', claim: 'LT2', intensity: 272, sd: 3 },
  { name: 'Second lactate turn point', claim: 'LT2', intensity: 281, sd: 3 },
];

const bell = (centre: number, sd: number) => {
  const x = Array.from({ length: 64 }, (_, i) => centre + ((i - 31.5) / 10) * sd);
  return { x, y: x.map((at) => Math.exp(-(((at - centre) / sd) ** 2) / 2)) };
};

const rowOf = ({ name, claim, intensity, sd }: Answer): SensitivityRow => ({
  name,
  claim,
  intensity,
  value: `${intensity} W`,
  range: sd === 0 ? '' : `${(intensity - 2 * sd).toFixed(0)}–${(intensity + 2 * sd).toFixed(0)}`,
  interval: sd === 0 ? null : [intensity - 2 * sd, sd > 15 ? Infinity : intensity + 2 * sd],
  density: sd === 0 ? null : bell(intensity, sd),
  stages:
    sd === 0
      ? [
          { x: 180, share: 0.12 },
          { x: 210, share: 0.61 },
          { x: 240, share: 0.27 },
        ]
      : null,
});

export const thresholdsSample: ThresholdsChartData = {
  axis: 'power',
  x: X,
  y: Y,
  curve: line('cubic', 26),
  rows: ANSWERS.map((a) => ({ ...rowOf(a), lactate: shape(a.intensity, 26) })),
  title: 'Every method on the curve',
  summary: 'The first threshold lies between 210 and 262 W, the second between 272 and 299 W.',
};

export const sensitivitySample: SensitivityChartData = {
  axis: 'power',
  lo: X[0]!,
  hi: X[7]!,
  rows: ANSWERS.map(rowOf),
  title: 'How far each figure can be trusted',
  summary: 'The steadiest method is Dmax; the least steady is the log-log breakpoint.',
};

export const modelsSample: ModelsChartData = {
  axis: 'power',
  x: X,
  y: Y,
  readingSd: SD,
  panels: [20, 24, 26, 30, 34, 40, 60].map((bend, i) => ({
    ...line(
      [
        'straight lines between the readings',
        'exponential',
        'cubic',
        'quartic',
        'two segments',
        'three segments',
        'spline',
      ][i]!,
      bend,
    ),
    residuals: X.map((x, k) => Y[k]! - shape(x, bend)),
    remark: `left out: ${(0.2 + i / 10).toFixed(2)}`,
  })),
  title: 'Curve models side by side',
  summary: 'The exponential leaves the least over.',
};

export const bandsSample: BandsChartData = {
  axis: 'speed',
  lo: 6,
  hi: 12.58,
  bands: [
    { name: 'Easy', from: 6, to: 9.1, tone: 'below', undecided: false },
    { name: 'Easy or threshold', from: 9.1, to: 10.2, tone: 'between', undecided: true },
    { name: 'Threshold', from: 10.2, to: 11.2, tone: 'between', undecided: false },
    { name: 'Threshold or hard', from: 11.2, to: 11.6, tone: 'above', undecided: true },
    { name: 'Hard', from: 11.6, to: 12.58, tone: 'above', undecided: false },
  ],
  thresholds: [
    { claim: 'LT1', intensity: 9.6, label: '9.6 km/h (9.1–10.2)', density: bell(9.6, 0.35) },
    { claim: 'LT2', intensity: 11.4, label: '11.4 km/h (11.2–11.6)', density: bell(11.4, 0.13) },
  ],
  title: 'Training bands',
  summary: 'Easy below 9.1 km/h, hard above 11.6 km/h.',
};

export const heartRateSample: HeartRateChartData = {
  axis: 'speed',
  stages: [112, 123, 133, 144, 154, 165, 175, 181].map((heartRate, i) => ({
    intensity: 6 + i,
    heartRate,
    counted: i < 7,
  })),
  thresholds: [
    { claim: 'LT1', intensity: 9.6, heartRate: 150, label: 'LT1 150 bpm' },
    { claim: 'LT2', intensity: 11.4, heartRate: 169, label: 'LT2 169 bpm' },
  ],
  title: 'Heart rate against speed',
  summary: 'Heart rate rises by some 10 bpm a stage.',
};

/** A session of reps of two lengths: one reading too early, one under, two above. */
export const sessionSample: SessionChartData = {
  reps: [0, 8, 16, 24].map((from) => ({ from, to: from + (from === 24 ? 4 : 8), label: '295 W' })),
  readings: [
    { work: 3, lactate: 2.4, tone: 'early' },
    { work: 8, lactate: 3.3, tone: 'under' },
    { work: 16, lactate: 6.3, tone: 'above' },
    { work: 28, lactate: 12.4, tone: 'above' },
  ],
  course: [0, 8, 16, 24].map((from) => ({
    points: [0, 4, 8].map((minute) => ({
      work: from + minute / (from === 24 ? 2 : 1),
      low: 2,
      high: 3 + minute / 4,
    })),
  })),
  title: 'Lactate over the work done',
  summary: 'Two of three readings are above.',
};

import { answerMark, drawn, ON_LACTATE, scene } from '../construction.ts';
import type { Readings } from '../stepTest.ts';
import { give, refuse } from './answer.ts';
import { notCompiled } from './estimators/notCompiled.ts';
import type { Method } from './method.ts';

/** Readings on either side of the highest one that the parabola is fitted to, where there are so many. */
const BESIDE = 2;

/**
 * A parabola by least squares through the readings `from` up to `to`, about the middle one's intensity.
 *
 * Model     lactate = height + slope·u + bend·u², u = (x − middle)/half; normal equations on at most 5 points
 */
export class Parabola {
  middle = Number.NaN;
  half = Number.NaN;
  height = Number.NaN;
  slope = Number.NaN;
  bend = Number.NaN;

  fit(x: Float64Array, y: Float64Array, from: number, to: number): void {
    this.middle = (x[from]! + x[to - 1]!) / 2;
    this.half = (x[to - 1]! - x[from]!) / 2;
    let [s1, s2, s3, s4, t0, t1, t2] = [0, 0, 0, 0, 0, 0, 0];
    for (let i = from; i < to; i++) {
      const u = (x[i]! - this.middle) / this.half;
      s1 += u;
      s2 += u * u;
      s3 += u ** 3;
      s4 += u ** 4;
      t0 += y[i]!;
      t1 += u * y[i]!;
      t2 += u * u * y[i]!;
    }
    const n = to - from;
    const [a, b, c] = [s2 - (s1 * s1) / n, s3 - (s1 * s2) / n, s4 - (s2 * s2) / n];
    const [p, q] = [t1 - (s1 * t0) / n, t2 - (s2 * t0) / n];
    this.bend = (a * q - b * p) / (a * c - b * b);
    this.slope = (p - b * this.bend) / a;
    this.height = (t0 - this.slope * s1 - this.bend * s2) / n;
  }

  at(x: number): number {
    const u = (x - this.middle) / this.half;
    return this.height + u * (this.slope + u * this.bend);
  }

  /** Intensity of its highest or lowest point. */
  get vertex(): number {
    return this.middle - (this.half * this.slope) / (2 * this.bend);
  }
}

const highest = (y: Float64Array): number => {
  let at = 0;
  for (let i = 1; i < y.length; i++) if (y[i]! > y[at]!) at = i;
  return at;
};

/** Fit the parabola around the highest reading; false when that reading is at an end. */
function fitAround(parabola: Parabola, { x }: Readings, y: Float64Array): boolean {
  const top = highest(y);
  if (top === 0 || top === y.length - 1) return false;
  parabola.fit(x, y, Math.max(0, top - BESIDE), Math.min(y.length, top + BESIDE + 1));
  return true;
}

/** Reverse lactate threshold: the peak of lactate while intensity falls from above the steady state. */
export const reverse: Method = {
  id: 'reverse',
  name: 'Reverse',
  claim: 'MLSS',
  meaning: 'Where lactate, as intensity falls step by step, stops rising and begins to fall.',
  source: 'Dotan 2012, Int J Sports Physiol Perform 7:141–151 (from memory)',
  protocol: 'reverse',
  curve: null,
  anyCurve: false,
  minPoints: 4,
  maximal: false,
  discrete: false,
  alsoNeeds: ['intensities that fall from clearly above the expected threshold, in small steps'],
  bias: 'Lactate lags behind: simulated, steps of 4 min put the peak 4 to 8 % above the steady state.',
  shorterStages: 'higher',
  refusals: ['E_PROTOCOL', 'E_EDGE', 'E_NOT_CONVEX'],
  refuses: ({ falling }) =>
    falling
      ? null
      : {
          code: 'E_PROTOCOL',
          reason: 'The intensities must fall from stage to stage after the hardest one.',
        },
  prepare: (readings) => {
    const parabola = new Parabola();
    return notCompiled((y, _curve, answer) => {
      if (!fitAround(parabola, readings, y)) return refuse(answer, 'E_EDGE');
      if (!(parabola.bend < 0)) return refuse(answer, 'E_NOT_CONVEX');
      const peak = parabola.vertex;
      if (Math.abs(peak - parabola.middle) < parabola.half) give(answer, peak, parabola.at(peak));
      else refuse(answer, 'E_EDGE');
    });
  },
  explain: (code) =>
    code === 'E_NOT_CONVEX'
      ? 'The readings around the highest one do not form a peak.'
      : 'Lactate is highest at the first or the last stage: the peak lies outside the tested range.',
  construct: (answer, situation) => {
    const { readings } = situation;
    const parabola = new Parabola();
    const fitted = fitAround(parabola, readings, readings.y);
    const top = highest(readings.y);
    const from = readings.x[Math.max(0, top - BESIDE)]!;
    const to = readings.x[Math.min(readings.x.length - 1, top + BESIDE)]!;
    return {
      axes: ON_LACTATE,
      marks: [
        ...scene(situation),
        ...(fitted ? drawn((x) => parabola.at(x), from, to, 'parabola around the peak') : []),
        ...answerMark(answer),
      ],
      caption:
        'Done from right to left: lactate rises while the effort is above the steady state; the answer is the peak.',
    };
  },
};

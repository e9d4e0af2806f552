import { leastSquares } from '../../numerics/leastSquares.ts';
import { lineThrough } from '../../numerics/lineThrough.ts';
import { criticalBelow } from './hyperbola.ts';
import { profileMinimum } from './profileMinimum.ts';

/** Critical intensity, reserve, and the highest intensity there is, reached when no time is left. */
interface ThreeParameters {
  /** W or km/h. */
  critical: number;
  /** Joules, or km/h·s. */
  reserve: number;
  /** W or km/h; Infinity when the efforts show no such limit, and then this is the two-parameter model. */
  maximal: number;
  /** Sum of squares in the unit of the form. */
  sse: number;
}

/**
 * Three-parameter critical power or critical speed from best efforts.
 *
 * Model     seconds = reserve/(intensity − critical) − reserve/(maximal − critical); the error in time, in time in
 *           proportion, or in intensity in proportion
 * Shape     seconds[n], intensity[n]; n >= 4
 * Units     s, W or km/h → W or km/h, J or km/h·s
 * Departs   a limit below the hardest effort is never found: the search keeps it above
 * Accuracy  6 digits on frozen fits of scipy (tests/physiology/training/criticalPower.test.ts)
 * Source    Morton 1996, Ergonomics 39:611–619 (from memory)
 */
export function fitThreeParameters(
  seconds: ArrayLike<number>,
  intensity: ArrayLike<number>,
  form: 'time' | 'log-time' | 'relative-intensity',
): ThreeParameters {
  const t = Array.from(seconds);
  const p = Array.from(intensity);
  if (form === 'relative-intensity') return byIntensity(t, p);
  const inner = form === 'time' ? byTime : byLogTime;
  const critical = criticalBelow(Math.min(...p), (tried) => inner(t, p, tried).sse);
  return { critical, ...inner(t, p, critical) };
}

type Inner = Omit<ThreeParameters, 'critical'>;

/** Error in time: linear in the reserve and in the time that the limit takes away. */
function byTime(t: number[], p: number[], critical: number): Inner {
  const u = p.map((value) => 1 / (value - critical));
  const { status, coefficients, sse } = leastSquares([u, u.map(() => -1)], t);
  const [reserve, lost] = coefficients;
  if (status === 'ok' && lost! > 0) return { reserve: reserve!, maximal: critical + reserve! / lost!, sse };
  const single = leastSquares([u], t);
  return { reserve: single.coefficients[0]!, maximal: Number.POSITIVE_INFINITY, sse: single.sse };
}

/** Error in the logarithm of time: the reserve is closed, the limit is searched between the hardest effort and infinity. */
function byLogTime(t: number[], p: number[], critical: number): Inner {
  const u = p.map((value) => 1 / (value - critical));
  const least = Math.min(...u);
  // Logarithms of the reserve that each effort alone would need.
  const logs = new Float64Array(t.length);
  const meanLog = (share: number) => {
    let sum = 0;
    for (let i = 0; i < logs.length; i++) {
      logs[i] = Math.log(t[i]! / (u[i]! - share * least));
      sum += logs[i]!;
    }
    return sum / logs.length;
  };
  const sse = (share: number) => {
    const mean = meanLog(share);
    let sum = 0;
    for (let i = 0; i < logs.length; i++) sum += (logs[i]! - mean) ** 2;
    return sum;
  };
  const { x: share, value } = profileMinimum(sse, 0, 0.999, 8);
  const maximal = share > 1e-6 ? critical + 1 / (share * least) : Number.POSITIVE_INFINITY;
  return { reserve: Math.exp(meanLog(share)), maximal, sse: value };
}

/** Error in intensity: intensity = critical + reserve/(seconds + lost), with `lost` searched. */
function byIntensity(t: number[], p: number[]): ThreeParameters {
  const weights = p.map((value) => value ** -2);
  const inverse = new Float64Array(t.length);
  const line = (lost: number) => {
    for (let i = 0; i < inverse.length; i++) inverse[i] = 1 / (t[i]! + lost);
    return lineThrough(inverse, p, weights);
  };
  const { x: lost } = profileMinimum((tried) => line(tried).sse, 0, Math.max(...t), 16);
  const { intercept: critical, slope: reserve, sse } = line(lost);
  // Below a hundredth of a second the limit is beyond anything alive.
  const maximal = lost > 0.01 ? critical + reserve / lost : Number.POSITIVE_INFINITY;
  return { critical, reserve, maximal, sse };
}

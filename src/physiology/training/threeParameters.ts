import { leastSquares } from '../../numerics/leastSquares.ts';
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
  const logs = (share: number) => t.map((time, i) => Math.log(time / (u[i]! - share * least)));
  const sse = (share: number) => {
    const values = logs(share);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    return values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  };
  const { x: share, value } = profileMinimum(sse, 0, 0.999, 8);
  const values = logs(share);
  const reserve = Math.exp(values.reduce((sum, one) => sum + one, 0) / values.length);
  const maximal = share > 1e-6 ? critical + 1 / (share * least) : Number.POSITIVE_INFINITY;
  return { reserve, maximal, sse: value };
}

/** Error in intensity: intensity = critical + reserve/(seconds + lost), with `lost` searched. */
function byIntensity(t: number[], p: number[]): ThreeParameters {
  const ones = t.map(() => 1);
  const weights = p.map((value) => value ** -2);
  const line = (lost: number) => leastSquares([ones, t.map((time) => 1 / (time + lost))], p, { weights });
  const { x: lost } = profileMinimum((tried) => line(tried).sse, 0, Math.max(...t), 16);
  const { coefficients, sse } = line(lost);
  const [critical, reserve] = [coefficients[0]!, coefficients[1]!];
  // Below a hundredth of a second the limit is beyond anything alive.
  const maximal = lost > 0.01 ? critical + reserve / lost : Number.POSITIVE_INFINITY;
  return { critical, reserve, maximal, sse };
}

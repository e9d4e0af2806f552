import { HouseholderQr } from '../../numerics/householderQr.ts';
import { type LeastSquaresFit, leastSquares } from '../../numerics/leastSquares.ts';
import { profileMinimum } from './profileMinimum.ts';

/**
 * Where the error of the efforts is put: in the work done (`work-time`), in intensity of equal size (`inverse-time`) or in
 * proportion (`relative-intensity`), in time of equal size (`time`) or in proportion (`log-time`).
 */
export type HyperbolaForm = 'work-time' | 'inverse-time' | 'relative-intensity' | 'time' | 'log-time';

/** Critical intensity and the reserve above it: (intensity − critical)·seconds = reserve. */
interface Hyperbola {
  /** W or km/h. */
  critical: number;
  /** Joules, or km/h·s. */
  reserve: number;
  criticalError: number;
  reserveError: number;
  /** In the unit of the form: J, W or km/h, s, or as a share. NaN with two efforts. */
  residualSd: number;
}

/**
 * Two-parameter critical power or critical speed from best efforts.
 *
 * Model     (intensity − critical)·seconds = reserve, with the error where `form` puts it
 * Shape     seconds[n], intensity[n]; n >= 2; order does not matter
 * Units     s, W or km/h → W or km/h, J or km/h·s
 * Assumes   efforts that took all the athlete had; independent errors. The form `work-time` has time on both sides: its
 *           errors and its fit look better than they are
 * Accuracy  6 digits on frozen fits of scipy (tests/physiology/training/criticalPower.test.ts)
 * Source    Monod & Scherrer 1965, Ergonomics 8:329–338; Moritani 1981, Ergonomics 24:339–350; the forms in Gaesser
 *           1995, Med Sci Sports Exerc 27:1430–1438 (abstract; the others from memory)
 *
 * @example
 * fitHyperbola([120, 300, 600], [350, 290, 270], 'relative-intensity').critical // 250
 */
export function fitHyperbola(
  seconds: ArrayLike<number>,
  intensity: ArrayLike<number>,
  form: HyperbolaForm,
): Hyperbola {
  const t = Array.from(seconds);
  const p = Array.from(intensity);
  const ones = t.map(() => 1);
  const inverse = t.map((time) => 1 / time);
  switch (form) {
    case 'work-time':
      return ofLine(
        leastSquares(
          [t, ones],
          t.map((time, i) => time * p[i]!),
        ),
      );
    case 'inverse-time':
      return ofLine(leastSquares([ones, inverse], p));
    case 'relative-intensity':
      return ofLine(leastSquares([ones, inverse], p, { weights: p.map((value) => value ** -2) }));
    default:
      return inTime(t, p, form);
  }
}

const ofLine = ({ coefficients, standardErrors, residualSd }: LeastSquaresFit): Hyperbola => ({
  critical: coefficients[0]!,
  reserve: coefficients[1]!,
  criticalError: standardErrors[0]!,
  reserveError: standardErrors[1]!,
  residualSd,
});

/** The forms with the error in time: the reserve is always at its best, the critical intensity is searched. */
function inTime(t: number[], p: number[], form: 'time' | 'log-time'): Hyperbola {
  const least = Math.min(...p);
  const reserveAt = form === 'time' ? bestReserve : bestReserveInLogs;
  const sse = (critical: number) => {
    const reserve = reserveAt(t, p, critical);
    return t.reduce((sum, time, i) => {
      const expected = reserve / (p[i]! - critical);
      return sum + (form === 'time' ? time - expected : Math.log(time / expected)) ** 2;
    }, 0);
  };
  const critical = criticalBelow(least, sse);
  const reserve = reserveAt(t, p, critical);
  const over = p.map((value) => value - critical);
  const columns =
    form === 'time'
      ? [over.map((gap) => reserve / gap ** 2), over.map((gap) => 1 / gap)]
      : [over.map((gap) => 1 / gap), over.map(() => 1 / reserve)];
  const freedom = t.length - 2;
  const residualSd = freedom > 0 ? Math.sqrt(sse(critical) / freedom) : NaN;
  const unit = new HouseholderQr(columns).unitStandardErrors();
  return {
    critical,
    reserve,
    criticalError: unit[0]! * residualSd,
    reserveError: unit[1]! * residualSd,
    residualSd,
  };
}

const bestReserve = (t: number[], p: number[], critical: number): number => {
  const u = p.map((value) => 1 / (value - critical));
  return t.reduce((sum, time, i) => sum + time * u[i]!, 0) / u.reduce((sum, value) => sum + value * value, 0);
};

const bestReserveInLogs = (t: number[], p: number[], critical: number): number =>
  Math.exp(t.reduce((sum, time, i) => sum + Math.log(time * (p[i]! - critical)), 0) / t.length);

/** Decades below the lowest intensity over which a critical intensity is searched. */
const DECADES = 6;

/** The critical intensity in (0, least) where `sse` is least, searched on the logarithm of the gap to `least`. */
export function criticalBelow(least: number, sse: (critical: number) => number): number {
  const at = (decades: number) => least * (1 - 10 ** -decades);
  // Decade 0 is a critical intensity of 0: no hyperbola that anybody rides.
  return at(profileMinimum((decades) => sse(at(decades)), 0, DECADES, 18).x);
}

import { formatNumber } from '../../base/format.ts';
import type { EffortKind, EffortPoints } from './bestEfforts.ts';
import { type DurationCurve, type DurationFit, type DurationModel, refuse, spanOf } from './durationModel.ts';
import { fitHyperbola } from './hyperbola.ts';
import { fitThreeParameters } from './threeParameters.ts';

/** Durations that the hyperbola describes, s. Above the critical intensity nothing lasts 60 min. */
const HYPERBOLA_RANGE = { from: 120, to: 1200 };
/** The longest effort as a multiple of the shortest, at least (our rule). */
const LEAST_SPREAD = 2.5;
/** Standard errors, as shares, beyond which a fit is called poor (from memory). */
const GOOD_FIT = { critical: 0.05, reserve: 0.1 };

/** The form that puts the error where such efforts carry it. */
const FORM_FOR = {
  'time-trial': 'relative-intensity',
  exhaustion: 'log-time',
} as const satisfies Record<EffortKind, string>;

/** Why these efforts cannot give a critical intensity; null when they can. */
function whyNot(points: EffortPoints, needed: number): string | null {
  if (points.seconds.length < needed)
    return `It needs at least ${needed} efforts; there ${points.seconds.length === 1 ? 'is 1' : `are ${points.seconds.length}`}.`;
  const [shortest, longest] = spanOf(points);
  if (longest >= LEAST_SPREAD * shortest) return null;
  return `It needs a longest effort of at least ${LEAST_SPREAD} times the shortest; here it is ${formatNumber(longest / shortest, 1)} times.`;
}

const NO_HYPERBOLA = 'The efforts do not fall off with time as a critical intensity asks for.';

function fitTwo(points: EffortPoints): DurationFit {
  const refused = whyNot(points, 3);
  if (refused !== null) return refuse(refused);
  const { critical, reserve, criticalError, reserveError } = fitHyperbola(
    points.seconds,
    points.intensity,
    FORM_FOR[points.kind],
  );
  if (!(critical > 0 && reserve > 0) || critical <= 1e-3 * Math.min(...points.intensity))
    return refuse(NO_HYPERBOLA);
  const errors =
    points.seconds.length < 4
      ? { critical: NaN, reserve: NaN }
      : { critical: criticalError, reserve: reserveError };
  const poor = errors.critical > GOOD_FIT.critical * critical || errors.reserve > GOOD_FIT.reserve * reserve;
  return {
    refused: null,
    curve: {
      intensityFor: (seconds) => critical + reserve / seconds,
      secondsAt: (intensity) => (intensity > critical ? reserve / (intensity - critical) : Infinity),
    },
    parameters: [
      { name: 'Critical intensity', value: critical, standardError: errors.critical, unit: 'intensity' },
      { name: 'Reserve above it', value: reserve, standardError: errors.reserve, unit: 'reserve' },
    ],
    warnings: [
      ...(poor
        ? ['Poor fit: the standard error passes 5 % of the critical intensity or 10 % of the reserve.']
        : []),
      ...lengthWarnings(points),
    ],
  };
}

function lengthWarnings(points: EffortPoints): string[] {
  const [shortest, longest] = spanOf(points);
  const outside = shortest < HYPERBOLA_RANGE.from || longest > HYPERBOLA_RANGE.to;
  return [
    ...(outside ? ['It is meant for efforts of 2 to 20 min; some of these are shorter or longer.'] : []),
    ...(longest < 720
      ? ['Without an effort of 12 to 20 min it comes out too high (Mattioni Maturana 2018, abstract).']
      : []),
  ];
}

function fitThree(points: EffortPoints): DurationFit {
  const refused = whyNot(points, 4);
  if (refused !== null) return refuse(refused);
  const { critical, reserve, maximal } = fitThreeParameters(
    points.seconds,
    points.intensity,
    FORM_FOR[points.kind],
  );
  if (!(critical > 0 && reserve > 0) || critical <= 1e-3 * Math.min(...points.intensity))
    return refuse(NO_HYPERBOLA);
  const hardest = Math.max(...points.intensity);
  if (maximal === Infinity)
    return refuse('The efforts show no highest intensity: it says what two parameters say.');
  if (maximal < 1.01 * hardest)
    return refuse(
      'The highest intensity lands on the hardest effort: these efforts do not fix three parameters.',
    );
  return {
    refused: null,
    curve: threeCurve(critical, reserve, maximal),
    parameters: [
      { name: 'Critical intensity', value: critical, standardError: NaN, unit: 'intensity' },
      { name: 'Reserve above it', value: reserve, standardError: NaN, unit: 'reserve' },
      { name: 'Highest intensity', value: maximal, standardError: NaN, unit: 'intensity' },
    ],
    warnings: lengthWarnings(points).slice(-1),
  };
}

function threeCurve(critical: number, reserve: number, maximal: number): DurationCurve {
  const lost = reserve / (maximal - critical);
  return {
    intensityFor: (seconds) => critical + reserve / (seconds + lost),
    secondsAt: (intensity) =>
      intensity > critical ? Math.max(0, reserve / (intensity - critical) - lost) : Infinity,
  };
}

/** The hyperbola of two parameters; its range ends well before an hour. */
export const CRITICAL_POWER: DurationModel = {
  id: 'critical-power',
  name: 'Critical intensity, 2 parameters',
  meaning: 'Above a critical intensity a fixed reserve is used up; it says nothing about an hour.',
  source:
    'Monod & Scherrer 1965, Ergonomics 8:329–338 (from memory); range: Jones 2019, Physiol Rep 7:e14098 (abstract)',
  range: () => HYPERBOLA_RANGE,
  fit: fitTwo,
};

/** The hyperbola of three parameters. */
export const CRITICAL_POWER_3: DurationModel = {
  id: 'critical-power-3',
  name: 'Critical intensity, 3 parameters',
  meaning: 'The same with a highest intensity, which helps below 2 min and not above 20.',
  source: 'Morton 1996, Ergonomics 39:611–619 (from memory)',
  range: ({ seconds }) => ({ from: Math.min(HYPERBOLA_RANGE.from, ...seconds), to: HYPERBOLA_RANGE.to }),
  fit: fitThree,
};

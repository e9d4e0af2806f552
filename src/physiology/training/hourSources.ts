import { Random } from '../../numerics/random.ts';
import { type BestEfforts, EFFORT_ERROR, type EffortPoints, pointsOf } from './bestEfforts.ts';
import { CRITICAL_POWER, CRITICAL_POWER_3 } from './criticalPower.ts';
import type { DurationCurve, DurationModel, FittedParameter } from './durationModel.ts';
import {
  drawEndurance,
  enduranceIntensity,
  enduranceSeconds,
  middleEndurance,
  THRESHOLD_RANGE,
  type TrainingLevel,
} from './fromThreshold.ts';
import { LOG_TIME_DECLINE } from './logTimeDecline.ts';
import { POWER_LAW } from './powerLaw.ts';

/** An hour, s. */
export const HOUR = 3600;

/** The models that best efforts are put through, the one meant for the shortest first. */
const DURATION_MODELS: readonly DurationModel[] = [
  CRITICAL_POWER_3,
  CRITICAL_POWER,
  POWER_LAW,
  LOG_TIME_DECLINE,
];

/** One way to the intensity of an hour, before anything is made of it. */
export interface Way {
  id: string;
  name: string;
  meaning: string;
  source: string;
  /** Durations that it may be asked about, s. */
  range: { from: number; to: number };
  /** Why it has no answer; null when it has one. */
  refused: string | null;
  curve: DurationCurve | null;
  parameters: FittedParameter[];
  warnings: string[];
  /** One curve for each draw of the errors; null where that draw has none. */
  draws: (DurationCurve | null)[];
}

/** Draws of the efforts when nothing is said. */
const DRAWS = 500;

/**
 * Best efforts through every model: the fit, and the same fit for each draw of their errors. All models see the same draws.
 * None without efforts.
 *
 * Random    times to exhaustion log-normal, intensities of time trials normal, of the size in `EFFORT_ERROR`
 */
export function waysFromEfforts(
  efforts: BestEfforts | null,
  { seed, count = DRAWS }: { seed: number; count?: number },
): Way[] {
  if (efforts === null || efforts.efforts.length === 0) return [];
  const random = new Random(seed, 1);
  const points = pointsOf(efforts);
  const drawn = Array.from({ length: count }, () => drawEfforts(points, random));
  return DURATION_MODELS.map((model) => {
    const { id, name, meaning, source } = model;
    const fit = model.fit(points);
    const about = { id, name, meaning, source, range: model.range(points) };
    if (fit.refused !== null)
      return { ...about, refused: fit.refused, curve: null, parameters: [], warnings: [], draws: [] };
    const { curve, parameters, warnings } = fit;
    return {
      ...about,
      refused: null,
      curve,
      parameters,
      warnings,
      draws: drawn.map((one) => curveOf(model, one)),
    };
  });
}

const curveOf = (model: DurationModel, points: EffortPoints): DurationCurve | null => {
  const fit = model.fit(points);
  return fit.refused === null ? fit.curve : null;
};

function drawEfforts({ kind, seconds, intensity }: EffortPoints, random: Random): EffortPoints {
  const error = EFFORT_ERROR[kind];
  if (kind === 'exhaustion')
    return { kind, intensity, seconds: seconds.map((time) => time * Math.exp(error * random.normal())) };
  return { kind, seconds, intensity: intensity.map((value) => value * (1 + error * random.normal())) };
}

/** The way from the draws of the second threshold; `middle` is its best single value. */
export function wayFromThreshold(
  lt2: Float64Array,
  middle: number,
  level: TrainingLevel,
  random: Random,
): Way {
  const asCurve = (endurance: ReturnType<typeof drawEndurance>): DurationCurve => ({
    intensityFor: (seconds) => enduranceIntensity(endurance, seconds),
    secondsAt: (intensity) => enduranceSeconds(endurance, intensity),
  });
  return {
    id: 'second-threshold',
    name: 'Second threshold',
    meaning:
      'How long people of this training hold their maximal lactate steady state; the chosen method is taken for it, whatever its bias.',
    source:
      'Fontana 2009, Eur J Appl Physiol 107:187–192 (abstract); Pallarés 2020, Appl Physiol Nutr Metab (abstract); ' +
      'Hafen & Vehrs 2018, Sports 6:154 (from memory); spread: our rule',
    range: THRESHOLD_RANGE,
    refused: null,
    curve: asCurve(middleEndurance(middle, level)),
    parameters: [],
    warnings: [],
    draws: Array.from(lt2, (value) =>
      Number.isNaN(value) ? null : asCurve(drawEndurance(value, level, random)),
    ),
  };
}

import type { Axis, Sport } from '../../base/units.ts';
import { type Spread, spreadOf } from '../../numerics/quantiles.ts';
import { Random } from '../../numerics/random.ts';

/**
 * Oxygen uptake of running on the level or uphill, of walking, and of leg cycling, ml/min/kg.
 *
 * Units     speed m/min, grade as a share; power W, mass kg
 * Assumes   a steady state; running above some 130 m/min, cycling above some 50 W
 * Source    American College of Sports Medicine, metabolic equations; they rest on adults of ordinary fitness
 *
 * @example
 * OXYGEN_UPTAKE.running(200) // 43.5
 * OXYGEN_UPTAKE.cycling(250, 75) // 43
 */
export const OXYGEN_UPTAKE = {
  running: (speed: number, grade = 0): number => 3.5 + 0.2 * speed + 0.9 * speed * grade,
  walking: (speed: number, grade = 0): number => 3.5 + 0.1 * speed + 1.8 * speed * grade,
  cycling: (power: number, mass: number): number => 7 + (10.8 * power) / mass,
} as const;

/** Standard error of those equations as a share of the oxygen uptake (from memory). */
const EQUATION_ERROR = 0.07;

/** Exchange ratios of fat alone and of carbohydrate alone. */
// biome-ignore lint/suspicious/noApproximativeNumericConstant: an exchange ratio, near √½ by chance
const FAT_ALONE = 0.707;
const CARBOHYDRATE_ALONE = 1;

/**
 * Energy of a litre of oxygen at a respiratory exchange ratio, kcal.
 *
 * Source    Lusk 1924, J Biol Chem 59:41–42, as a straight line between fat and carbohydrate (from memory)
 *
 * @example
 * kilocaloriesPerLitre(0.92) // 4.919
 */
export const kilocaloriesPerLitre = (ratio: number): number => 4.686 + 1.096 * (ratio - FAT_ALONE);

/**
 * Carbohydrate and fat burned, g/min, from gas exchange, L/min.
 *
 * Assumes   a steady state below the second threshold; above it carbon dioxide also comes from buffering, and no protein
 * Source    Péronnet & Massicotte 1991, Can J Sport Sci 16:23–29 (coefficients from memory)
 *
 * @example
 * substratesBurned(3, 2.7).carbohydrate // 2.7015
 */
export const substratesBurned = (
  oxygen: number,
  carbonDioxide: number,
): { carbohydrate: number; fat: number } => ({
  carbohydrate: Math.max(0, 4.585 * carbonDioxide - 3.226 * oxygen),
  fat: Math.max(0, 1.695 * oxygen - 1.701 * carbonDioxide),
});

/** Grams of carbohydrate a litre of oxygen burns, by share of energy at 4.1 kcal/g: the lower of two usual ways. */
function gramsByEnergyShare(ratio: number): number {
  const share = (ratio - FAT_ALONE) / (CARBOHYDRATE_ALONE - FAT_ALONE);
  return (kilocaloriesPerLitre(ratio) * Math.min(1, Math.max(0, share))) / 4.1;
}

/** Lowest, most likely and highest exchange ratio at the two thresholds (our rule, see `demandAt`). */
const RATIO_AT = { lt1: [0.82, 0.86, 0.92], lt2: [0.84, 0.92, 1] } as const;

/** What an hour at one intensity takes; each as median and 95 % range. */
export interface Demand {
  /** L/min. */
  oxygen: number;
  kilocalories: Spread;
  /** g/h burned, from the body's stores and from what is taken in. */
  carbohydrate: Spread;
  /** True above the second threshold, where even the high end may be too low. */
  aboveSecond: boolean;
}

interface DemandOptions {
  sport: Sport;
  axis: Axis;
  /** W or km/h. */
  intensity: number;
  /** kg. */
  mass: number;
  /** Thresholds on the same axis; the exchange ratio is placed between them. */
  lt1: number;
  lt2: number;
  /** ml/min as measured in the test; replaces the equation and its error. */
  measuredOxygen?: number | null;
}

const DRAWS = 2000;

/**
 * Energy and carbohydrate that an hour at one intensity takes, as a range.
 *
 * Model     oxygen uptake by equation (7 % standard error) or as measured (3 %); an exchange ratio drawn from a triangle that
 *           moves from that of the first threshold to that of the second; energy by the exchange ratio; grams anywhere
 *           between two usual equations, which differ by some 14 %
 * Random    seeded; 2000 draws
 * Source    triangles: maximal lactate steady state at 0.84 ± 0.02 and 0.88 ± 0.04 in trained runners (Hafen & Vehrs 2018,
 *           Sports 6:154, from memory); their edges are our rule
 */
export function demandAt(options: DemandOptions): Demand | null {
  const { intensity, mass, lt2, measuredOxygen = null } = options;
  const oxygen = measuredOxygen === null ? oxygenByEquation(options) : measuredOxygen / 1000;
  if (oxygen === null || !(mass > 0)) return null;
  const random = new Random(1);
  const error = measuredOxygen === null ? EQUATION_ERROR : 0.03;
  const triangle = triangleAt(options);
  const kilocalories = new Float64Array(DRAWS);
  const carbohydrate = new Float64Array(DRAWS);
  for (let d = 0; d < DRAWS; d++) {
    const litres = 60 * oxygen * (1 + error * random.normal());
    const ratio = triangular(triangle, random.uniform());
    kilocalories[d] = litres * kilocaloriesPerLitre(ratio);
    const high = substratesBurned(1, ratio).carbohydrate;
    const low = gramsByEnergyShare(ratio);
    carbohydrate[d] = litres * (low + (high - low) * random.uniform());
  }
  return {
    oxygen,
    kilocalories: spreadOf(kilocalories),
    carbohydrate: spreadOf(carbohydrate),
    aboveSecond: intensity > lt2,
  };
}

/** L/min; null where no equation is known here: rowing. */
function oxygenByEquation({ sport, axis, intensity, mass }: DemandOptions): number | null {
  if (sport === 'cycling' && axis === 'power') return (OXYGEN_UPTAKE.cycling(intensity, mass) * mass) / 1000;
  if (sport === 'running' && axis === 'speed')
    return (OXYGEN_UPTAKE.running((intensity * 1000) / 60) * mass) / 1000;
  return null;
}

type Triangle = readonly [number, number, number];

function triangleAt({ intensity, lt1, lt2 }: DemandOptions): Triangle {
  const share = Math.min(1, Math.max(0, (intensity - lt1) / (lt2 - lt1)));
  const at = (k: 0 | 1 | 2) => RATIO_AT.lt1[k] + share * (RATIO_AT.lt2[k] - RATIO_AT.lt1[k]);
  return [at(0), at(1), at(2)];
}

/**
 * Quantile of a triangular distribution.
 *
 * @example
 * triangular([0, 1, 2], 0.5) // 1
 */
export function triangular([low, mode, high]: Triangle, p: number): number {
  const below = (mode - low) / (high - low);
  return p < below
    ? low + Math.sqrt(p * (high - low) * (mode - low))
    : high - Math.sqrt((1 - p) * (high - low) * (high - mode));
}

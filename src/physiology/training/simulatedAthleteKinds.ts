import type { Random } from '../../numerics/random.ts';
import {
  type AthleteType,
  oxygenDemand,
  RECREATIONAL_RUNNER,
  steadyStateOf,
  TRAINED_CYCLIST,
} from './simulatedAthlete.ts';

/** Maximal oxygen uptake of the least and the most trained, ml/min/kg, and their time constants of uptake, min. */
const UPTAKE = { least: 42, most: 75, slow: 45 / 60, fast: 30 / 60 };
/** Shares of maximal oxygen uptake between which the steady state of people lies. */
const STEADY = { least: 0.6, most: 0.93 };
const MOST_TRIES = 100;

/** An athlete of random make, with the steady state that goes with it. */
export interface RandomAthlete {
  type: AthleteType;
  /** Intensity of the maximal lactate steady state, W or km/h, and its share of maximal oxygen uptake. */
  steady: number;
  share: number;
}

/**
 * A simulated athlete of random make, for classes and for trying rules on many.
 *
 * Model     maximal uptake uniform from 42 to 75 ml/min/kg; maximal glycolytic rate log-normal around 0.42 mmol/L/s,
 *           spread 0.28; exchange log-normal around 0.4 1/min, spread 0.2; basal appearance 0.093 ± 12 %; lactate to stop
 *           at 18 ± 1.5 mmol/L. Drawn again until the steady state lies within 60 to 93 % of maximal uptake
 * Random    one uniform and four normals a try
 * Source    our rule
 */
export function randomAthlete(random: Random, sport: 'cycling' | 'running' = 'cycling'): RandomAthlete {
  for (let i = 0; i < MOST_TRIES; i++) {
    const type = randomType(random, sport);
    const steady = steadyStateOf(type).intensity;
    const share = oxygenDemand(type, steady) / type.maximalUptake;
    if (share >= STEADY.least && share <= STEADY.most) return { type, steady, share };
  }
  throw new Error('no athlete with a possible steady state among many tries');
}

function randomType(random: Random, sport: 'cycling' | 'running'): AthleteType {
  const base = sport === 'cycling' ? TRAINED_CYCLIST : RECREATIONAL_RUNNER;
  const trained = random.uniform();
  const { least, most, slow, fast } = UPTAKE;
  return {
    ...base,
    name: sport === 'cycling' ? 'simulated cyclist' : 'simulated runner',
    maximalUptake: least + trained * (most - least),
    uptakeMinutes: slow + trained * (fast - slow),
    glycolyticRate: 0.42 * Math.exp(0.28 * random.normal()),
    basalAppearance: 0.093 * (1 + 0.12 * random.normal()),
    exchange: 0.4 * Math.exp(0.2 * random.normal()),
    stopLactate: 18 + 1.5 * random.normal(),
  };
}

import type { Axis, Sport } from '../../base/units.ts';
import { bracketedRoot } from '../../numerics/bracketedRoot.ts';

/** What a simulated athlete is made of. Not measured on anybody: for teaching, and for checks against a known truth. */
export interface AthleteType {
  name: string;
  sport: Sport;
  axis: Axis;
  /** kg. */
  mass: number;
  /** ml/min/kg. */
  maximalUptake: number;
  restingUptake: number;
  /** Maximal glycolytic rate, mmol/L/s. */
  glycolyticRate: number;
  /** Appearance of lactate that does not come from the working muscle, mmol/L/min. */
  basalAppearance: number;
  /** Exchange between muscle and blood, 1/min. */
  exchange: number;
  /** Time constant of oxygen uptake, min. */
  uptakeMinutes: number;
  /** Muscle lactate at which glycolysis is halved, and at which the athlete has to stop, mmol/L. */
  inhibition: number;
  stopLactate: number;
}

/** An invented athlete, with values as of a trained cyclist (our rule). */
export const TRAINED_CYCLIST: AthleteType = {
  name: 'trained cyclist',
  sport: 'cycling',
  axis: 'power',
  mass: 72,
  maximalUptake: 65,
  restingUptake: 5,
  glycolyticRate: 0.42,
  basalAppearance: 0.095,
  exchange: 0.4,
  uptakeMinutes: 32 / 60,
  inhibition: 22,
  stopLactate: 19,
};

/** An invented athlete, with values as of somebody who runs for pleasure (our rule). */
export const RECREATIONAL_RUNNER: AthleteType = {
  name: 'recreational runner',
  sport: 'running',
  axis: 'speed',
  mass: 75,
  maximalUptake: 48,
  restingUptake: 4.5,
  glycolyticRate: 0.48,
  basalAppearance: 0.09,
  exchange: 0.4,
  uptakeMinutes: 40 / 60,
  inhibition: 22,
  stopLactate: 17,
};

/** Constants of glycolysis and of removal (Mader & Heck 1986, from memory), and of our own additions (our rule). */
const OXIDATION = 0.0631;
const GLYCOLYSIS = 1.331;
const REMOVAL = 0.02049;
const LACTATE_SPACE = 0.4;
const HALF_REMOVAL = 3;
const OTHER_REMOVAL = 0.02;
const MUSCLE_SHARE = 0.35;
const HIGHEST_SHARE = 0.985;

/** Step of the integration, min. */
const STEP = 1 / 30;
/** Muscle lactates at rest between which every athlete's lies, mmol/L. */
const REST_LACTATE = [0.001, 30] as const;

/** Oxygen uptake, and lactate of the working muscle and of the blood. */
type State = [uptake: number, muscle: number, blood: number];

/**
 * An athlete whose lactate follows from what is done: work or rest, and read `lactate` whenever a sample is due.
 *
 * Model     oxygen uptake approaches the demand exponentially; glycolysis is driven by what uptake leaves open and slowed
 *           by muscle lactate; removal goes with uptake and saturates; muscle and blood exchange by their difference.
 *           Demand: cycling 7 + 10.8·W/kg, running 3.5 + 0.2·(m/min), ml/min/kg
 * Units     W or km/h, min → mmol/L
 * Accuracy  6 digits against scipy's LSODA (tests/physiology/training/simulatedAthlete.test.ts): fourth-order
 *           Runge-Kutta in steps of 2 s
 * Assumes   not fit for times to exhaustion, nor for plateaus far above the steady state; clears moderate lactate
 *           between reps faster than people do
 * Source    Mader & Heck 1986, Int J Sports Med 7 Suppl 1:45–65; Mader 2003, Eur J Appl Physiol 88:317–338; two
 *           compartments after Zouloumian & Freund 1981, Eur J Appl Physiol 46:135–147 (all from memory)
 * Departs   half removal at 3 mmol/L, a linear removal, a basal appearance and the inhibition are our additions
 */
export class SimulatedAthlete {
  readonly type: AthleteType;
  #state: State;

  /** Rested, unless the state of another one is given. */
  constructor(type: AthleteType, state: readonly number[] = restingState(type)) {
    this.type = type;
    this.#state = [...state] as State;
  }

  /** Blood lactate now, mmol/L. */
  get lactate(): number {
    return this.#state[2];
  }

  /** Whether muscle lactate has come to where the athlete has to stop. */
  get exhausted(): boolean {
    return this.#state[1] >= this.type.stopLactate;
  }

  /** The same athlete at this moment, to go on in another way. */
  copy(): SimulatedAthlete {
    return new SimulatedAthlete(this.type, this.#state);
  }

  /** Work at an intensity, whatever it costs. */
  work(intensity: number, minutes: number): void {
    const demand = oxygenDemand(this.type, intensity);
    for (let i = 0; i < Math.round(minutes / STEP); i++) advance(this.type, demand, this.#state, STEP);
  }

  /** Work until the time is up or the athlete has to stop; the minutes done. */
  workUntilExhausted(intensity: number, minutes: number): number {
    const demand = oxygenDemand(this.type, intensity);
    const steps = Math.round(minutes / STEP);
    for (let i = 1; i <= steps; i++) {
      advance(this.type, demand, this.#state, STEP);
      if (this.exhausted) return i * STEP;
    }
    return minutes;
  }

  /** Sit still. */
  rest(minutes: number): void {
    for (let i = 0; i < Math.round(minutes / STEP); i++)
      advance(this.type, this.type.restingUptake, this.#state, STEP);
  }
}

const resting = new WeakMap<AthleteType, State>();

/** The state in which nothing moves at rest: what muscle makes goes to the blood, and all that comes there is removed. */
function restingState(type: AthleteType): State {
  const known = resting.get(type);
  if (known) return known;
  const uptake = type.restingUptake;
  const bloodFor = (muscle: number) => muscle - productionOf(type, uptake, muscle) / type.exchange;
  const surplus = (muscle: number) =>
    productionOf(type, uptake, muscle) + type.basalAppearance - removalOf(uptake, bloodFor(muscle));
  const muscle = bracketedRoot(surplus, ...REST_LACTATE);
  const state: State = [uptake, muscle, bloodFor(muscle)];
  resting.set(type, state);
  return state;
}

/** Oxygen demand of an intensity, ml/min/kg. */
export const oxygenDemand = ({ axis, mass }: AthleteType, intensity: number): number =>
  axis === 'power' ? 7 + (10.8 * intensity) / mass : 3.5 + (0.2 * intensity * 1000) / 60;

/** Lactate production of the working muscle, mmol/L/min. */
function productionOf(
  { maximalUptake, glycolyticRate, inhibition }: AthleteType,
  uptake: number,
  muscle: number,
) {
  const share = Math.min(uptake / maximalUptake, HIGHEST_SHARE);
  const drive = Math.sqrt((OXIDATION * share) / (1 - share));
  // Products: powers take most of the time of an integration.
  const inhibited = (muscle / inhibition) * (muscle / inhibition);
  return (60 * glycolyticRate) / (1 + GLYCOLYSIS / (drive * drive * drive)) / (1 + inhibited * inhibited);
}

const highestRemoval = (uptake: number): number => (REMOVAL * uptake) / LACTATE_SPACE;

/** Removal of blood lactate, mmol/L/min. */
const removalOf = (uptake: number, blood: number): number =>
  highestRemoval(uptake) / (1 + HALF_REMOVAL / (blood * blood)) + OTHER_REMOVAL * blood;

function rates(type: AthleteType, demand: number, state: State, out: State): void {
  const uptake = state[0];
  const muscle = state[1];
  const blood = state[2];
  const removal = removalOf(uptake, blood);
  const released = type.exchange * (muscle - blood);
  out[0] = (Math.min(demand, HIGHEST_SHARE * type.maximalUptake) - uptake) / type.uptakeMinutes;
  out[1] = (productionOf(type, uptake, muscle) - released) / MUSCLE_SHARE;
  out[2] = (released + type.basalAppearance - removal) / (1 - MUSCLE_SHARE);
}

const zeros = (): State => [0, 0, 0];
/** Slopes at four places of a step, and the place between; kept, so that a step allocates nothing. */
const slope1 = zeros();
const slope2 = zeros();
const slope3 = zeros();
const slope4 = zeros();
const between = zeros();

function moved(from: State, by: State, step: number): State {
  for (let i = 0; i < 3; i++) between[i] = from[i]! + step * by[i]!;
  return between;
}

/** One step of the classical fourth-order Runge-Kutta method, in place. */
function advance(type: AthleteType, demand: number, state: State, step: number): void {
  rates(type, demand, state, slope1);
  rates(type, demand, moved(state, slope1, step / 2), slope2);
  rates(type, demand, moved(state, slope2, step / 2), slope3);
  rates(type, demand, moved(state, slope3, step), slope4);
  for (let i = 0; i < 3; i++)
    state[i]! += (step / 6) * (slope1[i]! + 2 * slope2[i]! + 2 * slope3[i]! + slope4[i]!);
}

/**
 * Intensity at which production without inhibition meets the highest removal: the maximal lactate steady state in theory.
 *
 * Units     → W or km/h
 */
export function theoreticalSteadyState(type: AthleteType): number {
  const surplus = (intensity: number) => {
    const uptake = oxygenDemand(type, intensity);
    return productionOf(type, uptake, 0) + type.basalAppearance - highestRemoval(uptake);
  };
  return bisected((intensity) => surplus(intensity) > 0, intensityRange(type))[0];
}

/** Intensity whose demand is the maximal oxygen uptake, W or km/h; the inverse of `oxygenDemand` there. */
export const intensityAtMaximalUptake = ({ axis, mass, maximalUptake }: AthleteType): number =>
  axis === 'power' ? ((maximalUptake - 7) * mass) / 10.8 : ((maximalUptake - 3.5) * 60) / 200;

/** Intensities between which every athlete's steady state lies. */
function intensityRange(type: AthleteType): [number, number] {
  const highest = intensityAtMaximalUptake(type);
  return [0.2 * highest, highest];
}

/** The intensities within which a condition begins to hold, by halvings. */
function bisected(
  holds: (x: number) => boolean,
  [lo, hi]: [number, number],
  halvings = 50,
): [number, number] {
  let [below, from] = [lo, hi];
  for (let i = 0; i < halvings; i++) {
    const middle = (below + from) / 2;
    if (holds(middle)) from = middle;
    else below = middle;
  }
  return [below, from];
}

interface SteadyState {
  /** W or km/h. */
  intensity: number;
  /** Blood lactate there at minutes 10 and 30 from rest, mmol/L. */
  lactate10: number;
  lactate30: number;
}

/** Greatest rise from minute 10 to minute 30 that counts as steady, mmol/L. */
const STEADY_RISE = 1;
/** Halvings that come near enough to the steady state for the rise to grow steadily with intensity. */
const NEAR = 4;

/**
 * The maximal lactate steady state: the hardest constant intensity at which blood lactate rises by no more than
 * 1.0 mmol/L from minute 10 to minute 30.
 *
 * Source    criterion: Heck et al. 1985, Int J Sports Med 6:117–130; Beneke 2003, Eur J Appl Physiol 89:95–99 (from
 *           memory)
 */
export function steadyStateOf(type: AthleteType): SteadyState {
  const at = (intensity: number): SteadyState => {
    const [lactate10, lactate30] = constantLoad(type, intensity, [10, 30]);
    return { intensity, lactate10: lactate10!, lactate30: lactate30! };
  };
  const surplus = (intensity: number) => {
    const { lactate10, lactate30 } = at(intensity);
    return lactate30 - lactate10 - STEADY_RISE;
  };
  const rises = (intensity: number) => surplus(intensity) > 0;
  // Far above the steady state lactate levels off and rises little again: near it first.
  const near = bisected(rises, intensityRange(type), NEAR);
  const root = bracketedRoot(surplus, ...near);
  return at(Number.isNaN(root) ? bisected(rises, near)[0] : root);
}

/** Blood lactate at these minutes of work at constant intensity from rest, mmol/L; minutes ascending. */
export function constantLoad(type: AthleteType, intensity: number, minutes: readonly number[]): number[] {
  const athlete = new SimulatedAthlete(type);
  let at = 0;
  return minutes.map((minute) => {
    athlete.work(intensity, minute - at);
    at = minute;
    return athlete.lactate;
  });
}

import type { Axis, Sport } from '../base/units.ts';

/** One stage of a step test, in the order it was done. Missing measurements are null, never 0 or NaN. */
export interface Stage {
  /** 0-based row in the table the reader saw, for messages; rest rows count. */
  row: number;
  /** Nominal intensity on the test's axis: W, or km/h. */
  intensity: number;
  /** mmol/L at the end of the stage. */
  lactate: number | null;
  /** bpm, mean of the last part of the stage. */
  heartRate: number | null;
  rpe: number | null;
  /** Minutes actually done; null when the table does not say (then taken as complete). */
  minutes: number | null;
  /** Mean of the last part of the stage, in `StepTest.oxygenUptakeUnit`; left out like null. */
  oxygenUptake?: number | null;
}

/** How a test is run: what its stages mean depends on it. */
export type Protocol = 'step' | 'lactate-minimum' | 'reverse' | 'bouts';
/** The protocols that are a row of stages. */
export type StageProtocol = Exclude<Protocol, 'bouts'>;

/** Whether the athlete rested or kept moving after the test. */
export type RecoveryMode = 'passive' | 'active';

/** Samples after the end of a step test. */
export interface Recovery {
  samples: { row: number; minute: number; lactate: number }[];
  /** Null when nobody says. */
  mode: RecoveryMode | null;
}

/** A step test as read: units settled, nothing dropped, nothing repaired. */
export interface StepTest {
  /** Rising stages ('step', also when left out), rising after sprints and a rest, or falling ones. */
  protocol?: StageProtocol;
  sport: Sport;
  /** What the intensity axis measures; fixes the unit (`unitOf(axis)`): power W, speed km/h. */
  axis: Axis;
  /** Ascending or not: as given. */
  stages: Stage[];
  /** Lactate at rest, mmol/L, kept apart: it never enters a curve fit. */
  restLactate: number | null;
  /** Planned stage length, minutes; null when unknown. */
  stageMinutes: number | null;
  /** kg, for W/kg. */
  bodyMass: number | null;
  oxygenUptakeUnit?: 'ml/min' | 'ml/min/kg';
  /** Samples after the end, for the individual anaerobic threshold. */
  recovery?: Recovery | null;
  /** Lactate minimum test: lactate after the rest that follows the sprints, just before the first stage, mmol/L. */
  lactateBefore?: number | null;
  /** What the reader had to decide for itself ("two heart-rate columns, the first was used"). */
  notes: string[];
}

/** One effort at constant intensity, with the samples taken in it. */
export interface Bout {
  /** W or km/h. */
  intensity: number;
  /** Minutes from the start of the bout, ascending. */
  samples: { row: number; minute: number; lactate: number }[];
  /** Whether the athlete kept it up to the end; null when the table does not say. */
  completed: boolean | null;
}

/** Several bouts at constant intensity, each on a day of its own: they bracket the maximal lactate steady state. */
export interface BoutTest {
  protocol: 'bouts';
  sport: Sport;
  axis: Axis;
  bouts: Bout[];
  bodyMass: number | null;
  notes: string[];
}

/** Whatever a table can hold. */
export type TestData = StepTest | BoutTest;

/** The policy for a last stage that was not finished (METHODS C3). */
export type LastStage = 'credited' | 'dropped' | 'nominal';

/** How the baseline lactate is defined; every result that hangs on it names it. */
export type BaselineRule = 'rest' | 'first' | 'lowest' | 'lowest-two';

/** The curve a method reads from. */
export type CurveId =
  | 'raw'
  | 'quadratic'
  | 'cubic'
  | 'quartic'
  | 'exponential'
  | 'two-segment'
  | 'three-segment'
  | 'spline';

/**
 * The usable points of a test: strictly ascending intensities with a lactate each, replicates at one intensity
 * averaged. This is all that curves and methods see.
 */
export interface Readings {
  protocol: Protocol;
  sport: Sport;
  axis: Axis;
  /** Intensities, W or km/h, strictly ascending; in bouts one for each sample, so that neighbours may be equal. */
  x: Float64Array;
  /** Lactate, mmol/L. */
  y: Float64Array;
  /** How many samples were averaged into each point. */
  count: Uint8Array;
  /** Index into `StepTest.stages` of each point (of the first, where averaged). */
  stage: Int32Array;
  restLactate: number | null;
  stageMinutes: number | null;
  /** Minutes from the start of the test to the end of each stage; in bouts from the start of the bout. */
  minute: Float64Array | null;
  /** Samples after the end, minutes ascending; null without any that count. */
  recovery: RecoveryReadings | null;
  /** True when samples after the end were taken, but the curve does not end with the lactate they fall from. */
  recoverySetAside: boolean;
  /** Lactate before the first stage of a lactate minimum test. */
  lactateBefore: number | null;
  /** The bouts in the order of their intensity, each with the place of its samples among the points. */
  bouts: BoutReadings[] | null;
  /** True when the stages were done from the hardest down, without a step up in between. */
  falling: boolean;
  /** True when the last point carries a credited intensity. */
  lastCredited: boolean;
  /** True unless the test is known to have stopped well short of exhaustion; null when nothing says. */
  toExhaustion: boolean | null;
  notes: string[];
}

/** Lactate after the end of the test, by minutes from it, ascending. */
export interface RecoveryReadings {
  minute: Float64Array;
  /** mmol/L. */
  lactate: Float64Array;
  mode: RecoveryMode | null;
}

/** One bout among the points of `Readings`: samples from `start` up to, not including, `end`. */
export interface BoutReadings {
  intensity: number;
  start: number;
  end: number;
  completed: boolean | null;
}

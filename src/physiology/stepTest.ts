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
}

/** A step test as read: units settled, nothing dropped, nothing repaired. */
export interface StepTest {
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
  /** What the reader had to decide for itself ("two heart-rate columns, the first was used"). */
  notes: string[];
}

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
  axis: Axis;
  /** Intensities, W or km/h, strictly ascending. */
  x: Float64Array;
  /** Lactate, mmol/L. */
  y: Float64Array;
  /** How many samples were averaged into each point. */
  count: Uint8Array;
  /** Index into `StepTest.stages` of each point (of the first, where averaged). */
  stage: Int32Array;
  restLactate: number | null;
  stageMinutes: number | null;
  /** True when the last point carries a credited intensity. */
  lastCredited: boolean;
  /** True unless the test is known to have stopped well short of exhaustion; null when nothing says. */
  toExhaustion: boolean | null;
  notes: string[];
}

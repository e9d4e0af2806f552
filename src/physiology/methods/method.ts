import type { Construction } from '../construction.ts';
import type { Curve } from '../curves/curve.ts';
import type { Refusal } from '../refusal.ts';
import type { RefusalCode } from '../refusalCodes.ts';
import type { BaselineRule, CurveId, Protocol, Readings } from '../stepTest.ts';
import type { Answer } from './answer.ts';
import type { AtRest, Estimator } from './estimators/estimator.ts';

/** What a method says it finds: the first or the second threshold, or the maximal lactate steady state itself. */
export type Claim = 'LT1' | 'LT2' | 'MLSS';

/** Choices that apply to every method of one analysis. */
export interface MethodOptions {
  /** Curve for the methods that read levels off a curve; null: each method's own default. */
  curve: CurveId | null;
  baseline: BaselineRule;
  /** Chord of the Dmax family: through the fitted or the measured end points. */
  ends: 'fitted' | 'measured';
  /** Where the modified Dmax sees its first rise: over the stage before, or over the baseline. */
  anchor: 'previous-stage' | 'baseline';
  /** Slope for the fixed-slope method, mmol/L per W or per km/h; null: the published one, where there is one. */
  slope: number | null;
  /** What raters read off the bare points, W or km/h, one entry each. */
  visual: { LT1: readonly number[]; LT2: readonly number[] };
}

/** What a sentence about one test may need: the test, and the curve as last fitted to it. */
export interface Situation {
  readings: Readings;
  curve: Curve | null;
  options: MethodOptions;
}

/** What stages that are shorter do to an answer. */
export type StageLengthEffect = 'higher' | 'lower' | 'little' | 'unknown';

/** One published way to find a threshold: the single declaration that table, command line, docs and tests read. */
export interface Method {
  /** In the literature's words; also the command line's. */
  id: string;
  /** Short name for tables and charts. */
  name: string;
  claim: Claim;
  /** One sentence: what the method says the athlete can do at this intensity, or what it looks for. */
  meaning: string;
  /** Published source; ends in "(from memory)" when nobody here has read it. */
  source: string;
  /** The protocol it was defined on; on any other it refuses. */
  protocol: Protocol;
  /** Curve it reads by default; null when it works on the bare readings. */
  curve: CurveId | null;
  /** True when `MethodOptions.curve` may replace the default. */
  anyCurve: boolean;
  /** The curves that may replace the default, for methods that not every curve serves. */
  curves?: readonly CurveId[];
  /** True when the curve lies over the minutes of the test instead of its intensities. */
  overTime?: true;
  /** Fewest usable stages, or bouts. */
  minPoints: number;
  /** Needs a test to (near) exhaustion: its answer hangs on where the test ended. */
  maximal: boolean;
  /** True when the answer is always one of the stages. */
  discrete: boolean;
  /** What it needs beyond stages and exhaustion, in a few words each. */
  alsoNeeds?: readonly string[];
  /** What is known to bend it: stage length, start, last stage, noise. */
  bias: string;
  /** Where shorter stages move the answer. */
  shorterStages: StageLengthEffect;
  /** Reasons for which it may refuse, besides too few stages, a foreign protocol and a test stopped early. */
  refusals: readonly RefusalCode[];
  /** True for methods that are shown only when they are asked for by name. */
  off?: true;
  /** Whether a test brings what the method alone needs; without, it is left out unless asked for by name. */
  applies?(readings: Readings, options: MethodOptions): boolean;
  /** Refusals that can be told before any fit (protocol, no rest sample); null to go on. */
  refuses?(readings: Readings, options: MethodOptions): Refusal | null;
  /** Prepare for these intensities (not these lactates); the lactate at rest is that of each draw. */
  prepare(readings: Readings, options: MethodOptions, rest: AtRest): Estimator;
  /** The sentence for a refusal by the estimator, with this test's values filled in. */
  explain(code: RefusalCode, situation: Situation): string;
  /** Cautions that go with an answer ("rests on one reading beyond the bend"). */
  warnings?(answer: Answer, situation: Situation): string[];
  /** How the answer is found on this test, as a picture; what there is to show also when it refused (null). */
  construct(answer: Answer | null, situation: Situation): Construction;
  /** Spread that comes from people and not from the readings: takes the place of what the draws would say. */
  spread?(options: MethodOptions): { sd: number; low: number; high: number };
}

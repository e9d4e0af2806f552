import type { EffortPoints } from './bestEfforts.ts';

/** How long an intensity can be held, and the reverse, by one model. */
export interface DurationCurve {
  /** W or km/h that lasts so many seconds. */
  intensityFor(seconds: number): number;
  /** Seconds that an intensity lasts; Infinity where the model sees no end. */
  secondsAt(intensity: number): number;
}

/** A fitted quantity with its standard error, in the unit that its name and `unit` say; NaN where nothing is left over. */
export interface FittedParameter {
  name: string;
  value: number;
  standardError: number;
  unit: 'intensity' | 'reserve' | 'percent' | 'exponent';
}

/** A fitted model, or the sentence that says why there is none. */
export type DurationFit =
  | { refused: null; curve: DurationCurve; parameters: FittedParameter[]; warnings: string[] }
  | { refused: string };

/** One way to carry best efforts over to other durations. */
export interface DurationModel {
  id: string;
  name: string;
  /** What it says, in one sentence. */
  meaning: string;
  source: string;
  /** Durations that it may be asked about, s, for these efforts. */
  range(points: EffortPoints): { from: number; to: number };
  fit(points: EffortPoints): DurationFit;
}

/** A model that gives no answer, for the reason told in a sentence. */
export const refuse = (refused: string): DurationFit => ({ refused });

/** Shortest and longest of the efforts, s. */
export const spanOf = ({ seconds }: EffortPoints): [number, number] => [
  Math.min(...seconds),
  Math.max(...seconds),
];

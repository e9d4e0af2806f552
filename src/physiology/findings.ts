import type { Readings, Stage, StepTest } from './stepTest.ts';

/** What a check may find, for programs; the words for people stand in the finding. */
export type FindingCode =
  | 'too-few-stages'
  | 'no-rest'
  | 'raised-rest'
  | 'raised-start'
  | 'falling-reading'
  | 'suspicious-reading'
  | 'short-stages'
  | 'unknown-stage-length'
  | 'incomplete-last'
  | 'incomplete-stage'
  | 'not-to-exhaustion'
  | 'uneven-steps'
  | 'falling-intensity'
  | 'implausible-lactate'
  | 'implausible-intensity'
  | 'repeated-intensity'
  | 'missing-lactate'
  | 'heart-rate-not-rising';

/** Something about how a test was done or written down that bears on its results. */
export interface Finding {
  code: FindingCode;
  tone: 'note' | 'caution' | 'problem';
  title: string;
  /** What it does to the results, in one or two sentences. */
  meaning: string;
  /** Indexes into `StepTest.stages`. */
  stages: number[];
}

/** Looks for one kind of finding. */
export type Check = (test: StepTest, readings: Readings) => Finding[];

/** One finding, or none when it is about stages and there are none to blame. */
export function blame(stages: number[], about: Omit<Finding, 'stages'>): Finding[] {
  return stages.length > 0 ? [{ ...about, stages }] : [];
}

/** One finding about the test as a whole when the condition holds. */
export function when(condition: boolean, about: Omit<Finding, 'stages'>): Finding[] {
  return condition ? [{ ...about, stages: [] }] : [];
}

/** Indexes of the stages for which the condition holds. */
export const stagesWhere = (
  { stages }: StepTest,
  condition: (stage: Stage, index: number) => boolean,
): number[] => stages.flatMap((stage, index) => (condition(stage, index) ? [index] : []));

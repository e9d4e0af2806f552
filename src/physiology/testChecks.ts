import type { Check, Finding } from './findings.ts';
import {
  exhaustion,
  falling as fallingIntensity,
  incompleteEnd,
  incompleteStages,
  repeated,
  stageLength,
  steps,
  tooFewStages,
} from './protocolChecks.ts';
import {
  falling,
  heartRate,
  implausible,
  implausibleIntensity,
  missingLactate,
  raisedStart,
  rest,
  suspicious,
} from './readingChecks.ts';
import { type ReadingsOptions, usableReadings } from './readings.ts';
import type { StepTest } from './stepTest.ts';

export type { Finding, FindingCode } from './findings.ts';

/**
 * Everything about a test that a reader of its results should know, gravest first. A finding never changes the
 * data. `toExhaustion` is what the user says about the end of the test; left out, it is guessed.
 *
 * Throws    InputError as `usableReadings` does
 */
export function checkTest(test: StepTest, options: Pick<ReadingsOptions, 'toExhaustion'> = {}): Finding[] {
  const readings = usableReadings(test, { ...options, lastStage: 'nominal' });
  const rank = { problem: 0, caution: 1, note: 2 };
  const checks = (test.protocol ?? 'step') === 'step' ? CHECKS : CHECKS.filter((c) => !STEP_ONLY.has(c));
  return checks.flatMap((check) => check(test, readings)).sort((a, b) => rank[a.tone] - rank[b.tone]);
}

const CHECKS: readonly Check[] = [
  tooFewStages,
  implausible,
  implausibleIntensity,
  fallingIntensity,
  suspicious,
  falling,
  rest,
  raisedStart,
  incompleteEnd,
  incompleteStages,
  stageLength,
  exhaustion,
  missingLactate,
  repeated,
  steps,
  heartRate,
];

/** What is a fault in a step test only: elsewhere lactate falls on purpose, and no rest sample is meant to be taken. */
const STEP_ONLY: ReadonlySet<Check> = new Set([
  fallingIntensity,
  suspicious,
  falling,
  rest,
  raisedStart,
  steps,
  heartRate,
  exhaustion,
]);

import { InputError } from '../../base/inputError.ts';
import type { StepTest } from '../stepTest.ts';
import { type AthleteType, SimulatedAthlete } from './simulatedAthlete.ts';

/** How a simulated step test is run. */
export interface StepProtocol {
  /** W or km/h. */
  start: number;
  increment: number;
  stageMinutes: number;
  /** Standing still between stages. */
  pauseMinutes?: number;
}

/** Minutes after the end at which recovery is sampled, and a limit that no athlete reaches. */
const RECOVERY_MINUTES = [1, 2, 3, 5, 7, 10, 15, 20];
const MOST_STAGES = 60;

/**
 * A step test of a simulated athlete to exhaustion, sampled without error at the end of each stage and in recovery.
 *
 * Throws    InputError for a protocol that cannot be run
 */
export function simulatedStepTest(type: AthleteType, protocol: StepProtocol): StepTest {
  const { start, increment, stageMinutes, pauseMinutes = 0 } = checked(protocol);
  const athlete = new SimulatedAthlete(type);
  const restLactate = athlete.lactate;
  const stages: StepTest['stages'] = [];
  for (let i = 0; i < MOST_STAGES && !athlete.exhausted; i++) {
    if (i > 0) athlete.rest(pauseMinutes);
    const intensity = start + i * increment;
    const minutes = athlete.workUntilExhausted(intensity, stageMinutes);
    stages.push({ row: i, intensity, lactate: athlete.lactate, heartRate: null, rpe: null, minutes });
  }
  return {
    protocol: 'step',
    sport: type.sport,
    axis: type.axis,
    stages,
    restLactate,
    stageMinutes,
    bodyMass: type.mass,
    recovery: { samples: recoveryOf(athlete), mode: 'passive' },
    notes: [],
  };
}

function checked(protocol: StepProtocol): StepProtocol {
  const { start, increment, stageMinutes, pauseMinutes = 0 } = protocol;
  if (start > 0 && increment > 0 && stageMinutes > 0 && pauseMinutes >= 0) return protocol;
  throw new InputError(
    `a step test needs a start, an increment and a stage length above 0 and a pause of 0 or more, got ${start}, ${increment}, ${stageMinutes} and ${pauseMinutes}`,
    { field: 'protocol' },
  );
}

function recoveryOf(athlete: SimulatedAthlete) {
  let at = 0;
  return RECOVERY_MINUTES.map((minute, row) => {
    athlete.rest(minute - at);
    at = minute;
    return { row, minute, lactate: athlete.lactate };
  });
}

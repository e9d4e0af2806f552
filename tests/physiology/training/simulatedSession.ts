import { type AthleteType, SimulatedAthlete } from '../../../src/physiology/training/simulatedAthlete.ts';

/** How a simulated session is done: reps at one intensity with easy movement or rest in between. */
interface SessionPlan {
  intensity: number;
  reps: number;
  repMinutes: number;
  restMinutes: number;
  /** Intensity between reps; sitting still when left out. */
  easy?: number;
}

/** Lactate at the end of each rep, mmol/L, without error; fewer reps when the athlete has to stop. */
export function simulatedSession(
  type: AthleteType,
  plan: SessionPlan,
): { minutes: number; lactate: number }[] {
  const { intensity, reps, repMinutes, restMinutes, easy } = plan;
  const athlete = new SimulatedAthlete(type);
  const ends: { minutes: number; lactate: number }[] = [];
  for (let i = 0; i < reps && !athlete.exhausted; i++) {
    if (i > 0 && easy === undefined) athlete.rest(restMinutes);
    else if (i > 0) athlete.work(easy!, restMinutes);
    const minutes = athlete.workUntilExhausted(intensity, repMinutes);
    ends.push({ minutes, lactate: athlete.lactate });
  }
  return ends;
}

import { InputError } from '../../base/inputError.ts';
import { type AthleteType, SimulatedAthlete } from '../training/simulatedAthlete.ts';

/** Reps at one intensity with rest between them; with a rest of 0 one long effort. */
interface RepPlan {
  /** W or km/h. */
  intensity: number;
  reps: number;
  repMinutes: number;
  restMinutes: number;
}

/** Blood lactate of a simulated athlete over a session. */
export interface LactateCourse {
  /** Blood lactate every half minute from the start, mmol/L; shorter when the athlete has to stop. */
  minute: number[];
  lactate: number[];
  /** Blood lactate at the end of each rep that was finished. */
  ends: number[];
}

/** Minutes between two points of the course. */
const EVERY = 0.5;

/**
 * Blood lactate of a simulated athlete over a session, between the reps too.
 *
 * Units     W or km/h, min → mmol/L
 * Assumes   sitting still between reps; what the simulated athlete assumes: no times to exhaustion, and lactate
 *           between reps falls faster than in people
 * Throws    InputError for a plan that cannot be done
 */
export function lactateCourse(type: AthleteType, plan: RepPlan): LactateCourse {
  const { intensity, reps, repMinutes, restMinutes } = plan;
  if (!(intensity > 0 && reps >= 1 && repMinutes > 0 && restMinutes >= 0)) {
    throw new InputError(
      `a session needs an intensity, reps and minutes above 0 and a rest of 0 or more, got ${intensity}, ${reps}, ${repMinutes} and ${restMinutes}`,
      { field: 'session' },
    );
  }
  const athlete = new SimulatedAthlete(type);
  const course: LactateCourse = { minute: [0], lactate: [athlete.lactate], ends: [] };
  for (let rep = 0; rep < reps && !athlete.exhausted; rep++) {
    if (rep > 0) follow(course, athlete, restMinutes, (minutes) => athlete.rest(minutes));
    follow(course, athlete, repMinutes, (minutes) => athlete.workUntilExhausted(intensity, minutes));
    if (!athlete.exhausted) course.ends.push(athlete.lactate);
  }
  return course;
}

function follow(
  { minute, lactate }: LactateCourse,
  athlete: SimulatedAthlete,
  minutes: number,
  go: (minutes: number) => void,
): void {
  const start = minute.at(-1)!;
  const resting = athlete.exhausted;
  for (let done = 0; done < minutes - 1e-9 && athlete.exhausted === resting; ) {
    const step = Math.min(EVERY, minutes - done);
    go(step);
    done += step;
    minute.push(start + done);
    lactate.push(athlete.lactate);
  }
}

import type { Axis, Sport } from '../../base/units.ts';

/** Scale that exertion was rated on: Borg's 6 to 20, or his category-ratio scale of 0 to 10. */
export type ExertionScale = '6-20' | 'CR10';

/** What an athlete felt or showed that says more than any reading. */
export type Sign =
  | 'nausea'
  | 'tingling'
  | 'loss of form'
  | 'breathing out of control'
  | 'could not finish'
  | 'chest pain'
  | 'fainting or dizziness'
  | 'palpitations'
  | 'unusual breathlessness';

/** Signs that are no training question: stop, and a doctor decides about any further test (our rule). */
export const MEDICAL_SIGNS: readonly Sign[] = [
  'chest pain',
  'fainting or dizziness',
  'palpitations',
  'unusual breathlessness',
];

/** What was measured at one moment of a rep. Missing measurements are null. */
export interface RepReading {
  /** 0-based row in the table the reader saw. */
  row: number;
  /** Minute of the rep. */
  minute: number | null;
  /** mmol/L. */
  lactate: number | null;
  heartRate: number | null;
  rpe: number | null;
}

/** One rep of a session, in the order it was done. */
export interface Rep {
  number: number;
  /** W or km/h; null when only heart rate tells how hard it was. */
  intensity: number | null;
  /** Minutes of work. */
  minutes: number;
  readings: RepReading[];
  signs: Sign[];
}

/** A session as read: reps with what was measured in them. */
export interface Session {
  sport: Sport;
  axis: Axis;
  reps: Rep[];
  exertionScale: ExertionScale | null;
  notes: string[];
}

/** What is not in the table: how the athlete spent the time between reps, and felt at the end. */
export interface SessionContext {
  /** Minutes between reps. */
  restMinutes: number;
  /** Moving easily, or standing and sitting. */
  rest: 'active' | 'passive';
  /** More reps that would have been possible; null when not known. */
  reserve: number | null;
}

/** Two intensities nearer than this count as the same, as a fraction (our rule). */
const SAME_INTENSITY = 0.02;

/** Reps that belong together by their intensity, easiest first; without intensities all reps are one group. */
export function groupsByIntensity(reps: readonly Rep[]): Rep[][] {
  if (reps.some((rep) => rep.intensity === null)) return [[...reps]];
  const groups: Rep[][] = [];
  for (const rep of reps.toSorted((a, b) => a.intensity! - b.intensity!)) {
    const group = groups.at(-1);
    if (group && rep.intensity! <= group[0]!.intensity! * (1 + SAME_INTENSITY)) group.push(rep);
    else groups.push([rep]);
  }
  return groups.map((group) => group.toSorted((a, b) => a.number - b.number));
}

/** Mean intensity of reps by the time worked; null when not known. */
export function meanIntensity(reps: readonly Rep[]): number | null {
  if (reps.length === 0 || reps.some((rep) => rep.intensity === null)) return null;
  const minutes = reps.reduce((sum, rep) => sum + rep.minutes, 0);
  return reps.reduce((sum, rep) => sum + rep.intensity! * rep.minutes, 0) / minutes;
}

/** Minutes of work done before each rep begins. */
export function workBefore(reps: readonly Rep[]): number[] {
  let done = 0;
  return reps.map((rep) => {
    const before = done;
    done += rep.minutes;
    return before;
  });
}

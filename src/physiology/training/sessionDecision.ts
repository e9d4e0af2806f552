import { type ExertionScale, MEDICAL_SIGNS, type Sign } from './session.ts';
import { EXERTION, type Strain } from './sessionStrain.ts';

/** What a session was, and with it what to do next. */
export type Verdict =
  | 'doctor'
  | 'too-hard'
  | 'above'
  | 'probably-above'
  | 'drifting'
  | 'on-target'
  | 'at'
  | 'below'
  | 'under'
  | 'mismatch'
  | 'not-assessable';

/** What the verdict on a session depends on, and nothing else. */
export interface SessionFacts {
  signs: readonly Sign[];
  /** Combined chance of having been above the second threshold; null without any evidence. */
  chance: number | null;
  /** Whether enough lactate readings came late enough to tell. */
  assessable: boolean;
  strain: Strain;
  scale: ExertionScale | null;
  /** More reps that would have been possible; null when not known. */
  reserve: number | null;
}

/** How the next intensity changes against this one, as fractions; null when there should be no next session yet. */
export type Change = readonly [from: number, to: number] | null;

interface Row {
  verdict: Verdict;
  holds(facts: SessionFacts): boolean;
  change: Change;
}

/** Limits of the chance between the verdicts (our rule). */
export const LIMITS = { below: 0.2, above: 0.5, clear: 0.8 } as const;
/** Rise of heart rate that counts as drifting, and heart rate above that of the step test that counts as high (our rule). */
const HEART_RATE_DRIFT = { share: 0.05, bpm: 8 } as const;
/** Reps that should still have been possible (common practice). */
export const RESERVE = 3;

const rating = ({ strain, scale }: SessionFacts) =>
  strain.exertion === null || scale === null ? null : { value: strain.exertion, ...EXERTION[scale] };

function feelsRight(facts: SessionFacts): boolean {
  const felt = rating(facts);
  return felt !== null && felt.value >= felt.from && felt.value <= felt.to;
}

const feelsHigh = (facts: SessionFacts): boolean => {
  const felt = rating(facts);
  const excess = facts.strain.heartRateExcess;
  return (felt !== null && felt.value >= felt.high) || (excess !== null && excess > HEART_RATE_DRIFT.bpm);
};

/** Whether heart rate or the rating kept rising at one intensity. */
export function isDrifting({ strain, scale }: Pick<SessionFacts, 'strain' | 'scale'>): boolean {
  const { heartRateRise, exertionRise } = strain;
  if (heartRateRise !== null && heartRateRise.share > HEART_RATE_DRIFT.share) return true;
  return exertionRise !== null && scale !== null && exertionRise >= EXERTION[scale].rise;
}

/** At or under by all that was measured, and yet hard (our rule). */
const isMismatch = (facts: SessionFacts): boolean =>
  facts.assessable && facts.chance !== null && facts.chance <= LIMITS.above && feelsHigh(facts);

const isBelow = ({ chance, assessable }: SessionFacts) =>
  assessable && chance !== null && chance < LIMITS.below;

/**
 * First row that holds decides. Signs go before any figure; without enough readings nothing is called clearly above
 * or below (our rule).
 */
const ROWS: readonly Row[] = [
  {
    verdict: 'doctor',
    holds: ({ signs }) => signs.some((sign) => MEDICAL_SIGNS.includes(sign)),
    change: null,
  },
  { verdict: 'too-hard', holds: ({ signs }) => signs.length > 0, change: [-0.05, -0.05] },
  {
    verdict: 'above',
    holds: ({ chance, assessable }) => assessable && chance !== null && chance > LIMITS.clear,
    change: [-0.05, -0.03],
  },
  {
    verdict: 'probably-above',
    holds: ({ chance }) => chance !== null && chance > LIMITS.above,
    change: [-0.03, -0.02],
  },
  { verdict: 'drifting', holds: isDrifting, change: [-0.03, -0.02] },
  { verdict: 'not-assessable', holds: ({ assessable }) => !assessable, change: [0, 0] },
  { verdict: 'mismatch', holds: isMismatch, change: [0, 0] },
  {
    verdict: 'below',
    holds: (facts) => isBelow(facts) && (rating(facts)?.value ?? Infinity) <= (rating(facts)?.easy ?? 0),
    change: [0.01, 0.02],
  },
  { verdict: 'under', holds: isBelow, change: [0, 0] },
  {
    verdict: 'on-target',
    holds: (facts) => feelsRight(facts) && (facts.reserve ?? 0) >= RESERVE,
    change: [0, 0],
  },
  { verdict: 'at', holds: () => true, change: [0, 0] },
];

/** The first row of the decision table that holds. */
export function decide(facts: SessionFacts): { verdict: Verdict; change: Change } {
  const { verdict, change } = ROWS.find((row) => row.holds(facts))!;
  return { verdict, change };
}

/** The change of intensity that goes with a verdict. */
export const changeAfter = (verdict: Verdict): Change => ROWS.find((row) => row.verdict === verdict)!.change;

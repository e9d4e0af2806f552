import type { StepTest } from '../stepTest.ts';

/** What may have been unusual on the day of a test or session. */
export type Condition = 'fasting' | 'low-carbohydrate' | 'hard-days' | 'heat' | 'illness' | 'caffeine';

/** What a condition does to lactate and to what is read from it. */
export interface ConditionEffect {
  condition: Condition;
  name: string;
  /** Which way thresholds read from lactate are pushed. */
  pushes: 'higher' | 'lower' | 'either' | 'little';
  /** One or two sentences for the reader. */
  effect: string;
  /** What to do about it. */
  advice: string;
  source: string;
}

/** What each condition of the day does to lactate, with the paper that says so. */
export const CONDITION_EFFECTS: Record<Condition, ConditionEffect> = {
  fasting: {
    condition: 'fasting',
    name: 'Fasting, or no meal in the hours before',
    pushes: 'little',
    effect:
      'A meal before the test, large, small or none, did not change the second threshold; time to exhaustion was 7 to 8 % longer after one.',
    advice: 'Eat the same before each test, and expect less from the last stage when fasting.',
    source: 'Aandahl 2021, Front Sports Act Living 3:664270 (abstract)',
  },
  'low-carbohydrate': {
    condition: 'low-carbohydrate',
    name: 'Little carbohydrate in the last two days',
    pushes: 'higher',
    effect:
      'With low stores lactate is lower at the same intensity: thresholds at 2 and 4 mmol/L read too high while endurance is worse.',
    advice: 'Do not call the athlete fitter for it. Test again after two days of usual food.',
    source: 'Maassen & Busse 1989, Eur J Appl Physiol 58:728–737 (abstract)',
  },
  'hard-days': {
    condition: 'hard-days',
    name: 'Hard training in the last two days',
    pushes: 'higher',
    effect:
      'Stores may be low and the end of the test weak: lactate and heart rate stay low at a high exertion.',
    advice: 'Test after two easy days, the same ones each time.',
    source: 'common practice',
  },
  heat: {
    condition: 'heat',
    name: 'Heat',
    pushes: 'lower',
    effect: 'Heart rate and lactate are higher at the same intensity, and both drift upwards.',
    advice: 'Thresholds of that day hold for that heat. By heart rate sessions come out easier than planned.',
    source:
      'common practice; drift: Coyle & González-Alonso 2001, Exerc Sport Sci Rev 29:88–92 (from memory)',
  },
  illness: {
    condition: 'illness',
    name: 'Ill, or not yet well again',
    pushes: 'either',
    effect: 'Nothing measured now tells of training.',
    advice:
      'No test and no hard session until well again. No advice on food is given here; a doctor decides what is in order.',
    source: 'common practice',
  },
  caffeine: {
    condition: 'caffeine',
    name: 'Caffeine in the hours before',
    pushes: 'lower',
    effect: 'Lactate can be somewhat higher at the same intensity, and the athlete may last longer.',
    advice: 'Take the same amount before each test, or none.',
    source: 'Graham 2001, Sports Med 31:785–807 (from memory)',
  },
};

/** The effects of the conditions that applied, in the order in which they weigh. */
export const effectsOf = (conditions: Partial<Record<Condition, boolean>>): ConditionEffect[] =>
  (['illness', 'low-carbohydrate', 'hard-days', 'heat', 'caffeine', 'fasting'] as const)
    .filter((condition) => conditions[condition])
    .map((condition) => CONDITION_EFFECTS[condition]);

/** Limits of the sign of low stores (our rule): baseline and peak lactate, mmol/L, and exertion on the 6–20 scale. */
const LOW_STORES = { baseline: 1, peak: 5, exertion: 18 };

/**
 * Whether a test looks as if the athlete came with low carbohydrate stores: low lactate from start to end with a high
 * exertion at the end. It is a hint and nothing more; null when the test does not hold what it takes.
 *
 * Source    the idea after Maassen & Busse 1989, Eur J Appl Physiol 58:728–737 (abstract); limits are our rule
 */
export function looksDepleted({ stages }: Pick<StepTest, 'stages'>): boolean | null {
  const lactates = stages.flatMap(({ lactate }) => (lactate === null ? [] : [lactate]));
  const exertion = stages.at(-1)?.rpe ?? null;
  // On the 0–10 scale nothing is called 11 or more.
  if (lactates.length < 3 || exertion === null || exertion <= 10) return null;
  return (
    Math.min(...lactates) < LOW_STORES.baseline &&
    Math.max(...lactates) < LOW_STORES.peak &&
    exertion >= LOW_STORES.exertion
  );
}

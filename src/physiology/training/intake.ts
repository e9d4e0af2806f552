/** Carbohydrate to take in, g/h, for a session of some length; null where none is needed. */
interface IntakeGuide {
  /** Up to this many minutes. */
  until: number;
  gramsPerHour: readonly [number, number] | null;
  words: string;
}

/**
 * Usual carbohydrate intake during exercise by its length.
 *
 * Source    Thomas, Erdman & Burke 2016, joint position statement on nutrition and athletic performance, Med Sci Sports
 *           Exerc 48:543–568 (from memory)
 */
const INTAKE: readonly IntakeGuide[] = [
  { until: 45, gramsPerHour: null, words: 'none is needed during the session' },
  { until: 75, gramsPerHour: [0, 30], words: 'small amounts, or a mouth rinse' },
  { until: 150, gramsPerHour: [30, 60], words: 'regularly from the start' },
  {
    until: Number.POSITIVE_INFINITY,
    gramsPerHour: [60, 90],
    words: 'of several kinds of sugar, as practised in training',
  },
];

/**
 * The guide for a session of so many minutes.
 *
 * @example
 * intakeFor(90).gramsPerHour // [30, 60]
 */
export const intakeFor = (minutes: number): IntakeGuide => INTAKE.find(({ until }) => minutes <= until)!;

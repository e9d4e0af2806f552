/** What a term belongs to: every test, its errors, training, a session, or the lesson's simulated athletes. */
export type TermGroup = 'test' | 'errors' | 'session' | 'training' | 'lesson';

/** A term of the trade or of statistics. */
export interface Term {
  /** As a heading; an abbreviation in brackets. */
  name: string;
  group: TermGroup;
  /** One sentence. */
  says: string;
  /** A paper, "common practice", or "our rule"; "(from memory)" when nobody here has read it. */
  source: string;
}

const term = (group: TermGroup, name: string, says: string, source: string): Term => ({
  name,
  group,
  says,
  source,
});

const PRACTICE = 'common practice';
const FAUDE = 'Faude 2009, Sports Med 39:469–490 (abstract)';

/** Every term that the shipped workbooks use and do not explain where they use it. Methods explain themselves. */
export const TERMS = {
  lactate: term(
    'test',
    'Blood lactate',
    'What muscles give off when they use sugar faster than oxygen can follow; its level tells how much more is made than cleared.',
    PRACTICE,
  ),
  'step-test': term(
    'test',
    'Step test',
    'A test in stages of equal length, each harder than the last by the same increment, with a blood sample at the end of each.',
    PRACTICE,
  ),
  protocol: term(
    'test',
    'Protocol',
    'All that was chosen about a test: stage length, start, increment, pauses, meter, site of sampling and machine.',
    PRACTICE,
  ),
  exhaustion: term(
    'test',
    'Exhaustion',
    'The athlete stopped because nothing more was possible, not because the plan ended there.',
    PRACTICE,
  ),
  rating: term(
    'test',
    'Rating of perceived exertion (RPE)',
    'How hard it felt, as a number from 6 to 20 or from 0 to 10; keep to one scale.',
    'Borg 1982, Med Sci Sports Exerc 14:377–381 (from memory)',
  ),
  baseline: term(
    'test',
    'Baseline',
    'The low lactate of easy effort, from which methods count a rise; it is the athlete’s own.',
    PRACTICE,
  ),
  lt1: term(
    'test',
    'First threshold (LT1)',
    'The intensity above which lactate leaves its baseline; below it hours are possible.',
    FAUDE,
  ),
  lt2: term(
    'test',
    'Second threshold (LT2)',
    'The intensity above which lactate keeps rising, so that the effort has an end in sight.',
    FAUDE,
  ),
  mlss: term(
    'test',
    'Maximal lactate steady state (MLSS)',
    'The hardest constant effort at which lactate rises by no more than 1.0 mmol/L from minute 10 to minute 30.',
    'Beneke 2003, Eur J Appl Physiol 89:95–99 (from memory)',
  ),
  bout: term(
    'test',
    'Bout',
    'One long effort at constant intensity; several of them, on several days, measure the steady state.',
    PRACTICE,
  ),
  repeatability: term(
    'errors',
    'Repeatability',
    'How far readings of the same blood differ from each other, as a standard deviation.',
    'ISO 5725-1 (from memory)',
  ),
  calibration: term(
    'errors',
    'Calibration error',
    'What all readings of a test are off by together, in proportion or by a fixed amount; no repeat takes it away.',
    'JCGM 100:2008 (from memory)',
  ),
  bias: term(
    'errors',
    'Bias',
    'How far a method lies from the truth on average, however often the test is repeated.',
    'ISO 5725-1 (from memory)',
  ),
  deviation: term(
    'errors',
    'Standard deviation (SD)',
    'The usual size of an error: two in three lie within one of them, 19 in 20 within two.',
    'JCGM 100:2008 (from memory)',
  ),
  draw: term(
    'errors',
    'Draw',
    'One simulated repeat of the test, its readings changed at random by errors of the size you set.',
    'JCGM 101:2008',
  ),
  interval: term(
    'errors',
    '95 % interval',
    'The range that holds the middle 95 of 100 draws; it knows only the errors that were set.',
    'JCGM 101:2008',
  ),
  ridge: term(
    'errors',
    'Ridge',
    'A small hill over the axis, high where many draws landed: the wider, the less is known.',
    'our rule',
  ),
  seed: term(
    'errors',
    'Seed',
    'The number that the random errors begin with: the same seed gives the same figures again.',
    PRACTICE,
  ),
  undecided: term(
    'training',
    'Undecided',
    'Where 10 to 90 % of the draws put the threshold below, so the test cannot say on which side the athlete is.',
    'our rule',
  ),
  rep: term('session', 'Rep', 'One repetition of a session of intervals, with a rest after it.', PRACTICE),
  drift: term(
    'session',
    'Drift',
    'What lactate or heart rate goes up by from rep to rep, or within one, though intensity stays.',
    PRACTICE,
  ),
  trial: term(
    'training',
    'Time trial, time to exhaustion',
    'In the first the time or distance is set and the athlete chooses the pace; in the second the intensity is set and time ends it.',
    PRACTICE,
  ),
  critical: term(
    'training',
    'Critical intensity',
    'What the line through short all-out efforts levels off at; it lies above what lasts an hour.',
    'Monod & Scherrer 1965, Ergonomics 8:329–338 (from memory)',
  ),
  reserve: term(
    'training',
    'Reserve above it',
    'The work or distance that can be done above the critical intensity before it is used up.',
    'Monod & Scherrer 1965, Ergonomics 8:329–338 (from memory)',
  ),
  zones: term(
    'training',
    'Three zones',
    'Easy below the first threshold, threshold between the two, hard above the second.',
    'Seiler & Kjerland 2006, Scand J Med Sci Sports 16:49–56 (from memory)',
  ),
  polarization: term(
    'training',
    'Polarization index',
    'Above 2 when much training is easy, some hard and little in between.',
    'Treff 2019, Front Physiol 10:707',
  ),
  change: term(
    'training',
    'Least change',
    'The smallest difference between two tests that their scatter alone does not explain, 19 times in 20.',
    'Hopkins 2000, Sports Med 30:1–15 (from memory)',
  ),
  scatter: term(
    'lesson',
    'Scatter',
    'How far its answers differ from repeat to repeat of the same test.',
    'ISO 5725-1 (from memory)',
  ),
  uptake: term(
    'lesson',
    'Maximal oxygen uptake',
    'The most oxygen that the body can use in a minute; here for each kilogram of it.',
    PRACTICE,
  ),
  glycolytic: term(
    'lesson',
    'Glycolytic rate',
    'How fast muscles can make lactate at the most: a sprinter’s is high.',
    'Mader & Heck 1986, Int J Sports Med 7 Suppl 1:45–65 (from memory)',
  ),
} as const satisfies Record<string, Term>;

/** By which `term` finds an explanation. */
export type TermId = keyof typeof TERMS;

import { withUnit } from '../base/format.ts';
import { isDrifting, type Verdict } from '../physiology/training/sessionDecision.ts';
import { callOf, type SessionReview } from '../physiology/training/sessionReview.ts';
import { EXERTION } from '../physiology/training/sessionStrain.ts';
import type { NoticeView } from '../view/view.ts';
import { type Display, heartRateWords, lactateWords, percentWords, withPace } from './display.ts';
import type { Answered } from './methodRows.ts';

/** What a verdict is called, how grave it is, and what to do next time. */
interface Saying {
  tone: NoticeView['tone'];
  title: string;
  next: string;
}

const SAYINGS: Record<Verdict, Saying> = {
  doctor: {
    tone: 'problem',
    title: 'Stop: a doctor first',
    next: 'No test and no hard training until a doctor has seen the athlete. If it goes on or comes back, call for medical help at once. This is no diagnosis.',
  },
  'too-hard': {
    tone: 'problem',
    title: 'Too hard, whatever the lactate',
    next: 'Easy days for 48 hours. Then lower, one rep fewer and with longer rest: the next session has it.',
  },
  above: {
    tone: 'problem',
    title: 'Too hard: above the second threshold',
    next: 'Go lower, by 3 to 5 % at least: the next session has the range.',
  },
  'probably-above': {
    tone: 'caution',
    title: 'Probably above the second threshold',
    next: 'Go lower, by 2 to 3 % at least, or make the reps shorter; take lactate again.',
  },
  drifting: {
    tone: 'caution',
    title: 'Strain kept rising',
    next: 'Go 2 to 3 % lower, or make the reps shorter. Look at heat, drink and fuel first.',
  },
  'on-target': {
    tone: 'good',
    title: 'On target',
    next: 'Do it again, within the range of the next session. One rep more comes before any more intensity.',
  },
  at: {
    tone: 'good',
    title: 'At or just under the second threshold',
    next: 'Do it again, no harder: the next session has the range. Note how hard it felt and how many more reps would have been possible.',
  },
  under: {
    tone: 'good',
    title: 'Under the second threshold',
    next: 'Do it again, within the range of the next session. More reps come before any more intensity.',
  },
  below: {
    tone: 'note',
    title: 'Below the second threshold, and easy',
    next: 'Keep it once more. After two such sessions go 1 to 2 % higher, within the range of the next session.',
  },
  mismatch: {
    tone: 'caution',
    title: 'Harder than lactate says',
    next: 'Do not go harder. Tired, ill, short of carbohydrate, hot, or a threshold out of date? Rest, then test again.',
  },
  'not-assessable': {
    tone: 'note',
    title: 'Not assessable from lactate',
    next: 'Sample at the end of rep 2 and of the last rep, six minutes or more into each. Without a meter keep to the range of the next session, to a rating of 13–15 and to a steady heart rate.',
  },
};

/** Signs alone make a session too hard; that it was above the threshold besides must not go unsaid. */
const ABOVE_WITH_SIGNS = 'Too hard: above the second threshold, and with warning signs';

const isAbove = ({ assessable, chance }: SessionReview): boolean =>
  assessable && chance !== null && callOf(chance) === 'above';

/** The verdict as one card: what happened, and what to do next time. */
export function verdictCard(
  review: SessionReview,
  { display, second }: { display: Display; second: Answered | null },
): Pick<NoticeView, 'tone' | 'title' | 'body'> {
  const { tone, title, next } = SAYINGS[review.verdict];
  const happened = whatHappened(review, display, second);
  const aboveToo = review.verdict === 'too-hard' && isAbove(review);
  return {
    tone,
    title: aboveToo ? ABOVE_WITH_SIGNS : title,
    body: `**The last session.** ${happened}\n\n**Next time.** ${next}`,
  };
}

function whatHappened(review: SessionReview, display: Display, second: Answered | null): string {
  const { signs, verdict } = review;
  if (verdict === 'doctor') return `Noted: ${signs.join(', ')}. That is no training question.`;
  return [
    verdict === 'too-hard' && `Noted: ${signs.join(', ')}. Such signs count for more than any reading.`,
    intensitySentence(review, display, second),
    lactateSentence(review),
    strainSentence(review),
    feelingSentence(review),
  ]
    .filter(Boolean)
    .join(' ');
}

function intensitySentence(
  { intensity, basis, reversed }: SessionReview,
  display: Display,
  second: Answered | null,
): string {
  if (basis === 'heart rate') return 'Judged by heart rate, for no intensity was noted.';
  if (intensity === null) return '';
  const at = `Reps at **${withPace(intensity, display)}**`;
  if (reversed)
    return `${at}, compared with nothing: the chosen first threshold lies above the second, so that one of them is wrong.`;
  if (second === null) return `${at}; the step test gives no second threshold to compare with.`;
  return `${at}; the second threshold is about ${withPace(second.intensity, display, { sd: second.sd })}.`;
}

/** The level that the deciding reps were heading for, mmol/L; null when they have no reading late enough. */
export function headingFor({ readings, decided }: SessionReview): number | null {
  const own = readings.filter(({ rep, level }) => level !== null && decided.some((d) => d.number === rep));
  if (own.length === 0) return null;
  return own.reduce((sum, { level }) => sum + level!.median, 0) / own.length;
}

function lactateSentence(review: SessionReview): string {
  const level = headingFor(review);
  if (level === null || !review.assessable) return unassessableWords(review);
  return `Lactate was heading for about **${lactateWords(level, 1)}**; at the threshold it settles near ${lactateWords(review.held.median, 1)}.`;
}

/** Why lactate does not tell, and what intensity alone says. */
function unassessableWords({ readings, usable, evidence, basis }: SessionReview): string {
  const few =
    usable === 0
      ? 'Every reading came too early in its rep, before minute 4.'
      : 'One reading late enough in its rep is too few.';
  const why = readings.length === 0 ? 'No lactate was taken.' : few;
  if (evidence.intensity === null) return why;
  return `${why} By ${basis} alone the chance of having been above is ${percentWords(evidence.intensity)}.`;
}

function strainSentence(review: SessionReview): string {
  const { strain, verdict } = review;
  if (verdict !== 'mismatch' && !isDrifting(review)) return '';
  const { heartRateRise, exertionRise, exertion, heartRateExcess } = strain;
  const parts = [
    heartRateRise &&
      heartRateRise.bpm > 0 &&
      `heart rate rose by ${heartRateWords(heartRateRise.bpm)} from the first rep to the last`,
    exertionRise !== null && exertionRise > 0 && `the rating rose by ${Number(exertionRise.toFixed(1))}`,
    heartRateExcess !== null &&
      heartRateExcess > 8 &&
      `heart rate was ${heartRateWords(heartRateExcess)} above that of the step test`,
    verdict === 'mismatch' && exertion !== null && `it was rated ${exertion}`,
  ].filter((part) => typeof part === 'string');
  if (parts.length === 0) return '';
  const text = parts.join(', ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** The mistake to catch: above the threshold although it felt manageable. */
function feelingSentence({ verdict, scale, strain: { exertion } }: SessionReview): string {
  if (verdict !== 'above' && verdict !== 'probably-above') return '';
  if (exertion === null || scale === null || exertion > EXERTION[scale].to) return '';
  return `Rated ${exertion}, it felt manageable: just above the threshold it does, while lactate climbs.`;
}

/** Why intensity and lactate may disagree, by which of the two is higher. */
export function disagreementWords({ evidence }: SessionReview): string {
  const lactateHigher = evidence.lactate! > evidence.intensity!;
  const causes = lactateHigher
    ? 'sweat or a first drop in the sample, heat, tired legs, illness, caffeine or a hard start, or a threshold that has come down since the test'
    : 'little carbohydrate left, a meter that reads low, samples taken late, a threshold that the method puts too low, or one that has gone up since the test';
  return `By intensity the session ${lactateHigher ? 'should have been under' : 'was above'} the second threshold, by lactate it ${lactateHigher ? 'was above' : 'stayed under'}. Usual causes: ${causes}. Do not trust either alone; repeat the session rested and fed, or test again.`;
}

/** A reading that stands out, in words; empty without any. */
export const doubtWords = ({ doubtful }: SessionReview): string =>
  doubtful
    .map(
      ({ rep, lactate }) =>
        `The reading of rep ${rep.number} (${lactateWords(lactate, 1)}) lies far above those before and after it: sweat or a first drop in the sample? Look at the verdict with that entry emptied.`,
    )
    .join(' ');

/** What the review of a session does not know, in sentences that stand beneath it. */
export const LIMITS_OF_REVIEW = [
  'It judges against the second threshold by the chosen method. Where that lies too low or too high, so does the verdict.',
  `On simulated athletes 10 % above their steady state it says above or probably above, 10 % below hardly ever; within ${withUnit('5', '%')} of it the answers are divided.`,
  'A threshold moves from day to day: repeated tests differ by some 3.5 % (Pallarés 2016, PLoS ONE 11:e0163389, abstract). The chance by intensity knows only the error of the test.',
  'No drift proves nothing: well above the threshold lactate climbs in the first reps and then levels off.',
  'Little carbohydrate lowers lactate; heat, dehydration and illness raise heart rate. Neither is seen here.',
  'One session is weak evidence. Change the threshold only after two that agree, or a new test.',
  'The limits are rules of ours, tried on simulated athletes and not on people. This describes training and is no diagnosis; a doctor, and whoever is licensed to coach or test, has the last word.',
] as const;

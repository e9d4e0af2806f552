import { formatNumber, formatPace, withUnit } from '../base/format.ts';
import type { Spread } from '../numerics/quantiles.ts';
import type { HourAnswer } from '../physiology/training/holdForAnHour.ts';
import { type NoticeView, notice } from '../view/view.ts';
import { type Display, intensityWords, percentWords, rangeWords, withPace } from './display.ts';

/** By how much people say too much: 15 479 s run against 15 003 s said (see `OPTIMISM_SOURCE`). */
const OPTIMISM = 0.03;
/** Who measured by how much people say too much. */
export const OPTIMISM_SOURCE =
  '777 marathon runners said 15 003 s and ran 15 479 s (Gordon 2016, abstract); of 633, two in three were slower than they ' +
  'said (Roberts 2008, abstract).';

/** Chances from which a claim is called likely, better than even, and doubtful (our rule). */
const LIKELY = 0.8;
const EVEN = 0.5;
const DOUBTFUL = 0.2;

/** A spread in words: `268–291 W`; an open end says that it lies beyond what was tested. */
export function spreadWords({ low, high }: Spread, display: Display): string {
  const end = (value: number, beyond: 'below' | 'above') =>
    Number.isFinite(value) ? { value, beyond: null } : { value: null, beyond };
  return rangeWords({ low: end(low, 'below'), high: end(high, 'above') }, display);
}

/** A chance in words; never nothing and never certain, for draws are not. */
export function chanceWords(chance: number): string {
  if (chance < 0.01) return `less than ${withUnit('1', '%')}`;
  return chance > 0.99 ? `more than ${withUnit('99', '%')}` : percentWords(chance);
}

/** Seconds in words: `38 min`, `1:20 h`. */
export function timeWords(seconds: number): string {
  if (seconds > 0 && seconds < 120) return withUnit(formatNumber(seconds, 0), 's');
  const minutes = Math.round(seconds / 60);
  // Minutes as m:ss are hours as h:mm.
  return minutes < 90 ? withUnit(String(minutes), 'min') : withUnit(formatPace(minutes / 60), 'h');
}

/** Whether a claimed intensity could be held for an hour, or what could be, in one notice. */
export function sayHour(answer: HourAnswer, claim: number | null, display: Display): NoticeView {
  const { hour, chance, shift } = answer;
  if (shift.retest)
    return notice(
      'caution',
      'After more than 8 weeks without training these tests say nothing',
      'Begin easy and test again.',
    );
  if (hour === null)
    return notice(
      'caution',
      'It cannot be told from this',
      'Short efforts say too little about an hour. Add a best effort of 20 to 40 min, or a step test with a second threshold.',
    );
  const best = intensityWords(hour.median, display);
  const body = `What fits an hour is about **${withPace(hour.median, display)}**, 95 % range ${spreadWords(hour, display)}.`;
  if (claim === null || chance === null) return notice('note', `About ${best} for an hour`, body);
  const { tone, words } = verdictOf(chance);
  return notice(
    tone,
    `${intensityWords(claim, display)} for an hour: ${words}`,
    `The chance is ${chanceWords(chance)}. ${body} ${optimismWords(claim, chance, display)}`,
  );
}

function verdictOf(chance: number): { tone: NoticeView['tone']; words: string } {
  if (chance >= LIKELY) return { tone: 'good', words: 'likely' };
  if (chance >= EVEN) return { tone: 'note', words: 'more likely than not' };
  if (chance >= DOUBTFUL) return { tone: 'caution', words: 'doubtful' };
  return { tone: 'caution', words: 'not likely' };
}

const optimismWords = (claim: number, chance: number, display: Display): string =>
  chance >= LIKELY
    ? ''
    : `Most people say too much, by some ${withUnit('3', '%')}; that would leave ${intensityWords((1 - OPTIMISM) * claim, display)}.`;

/** What a break or the age of the tests does to the hour, in a sentence; null when it does nothing. */
export function sayBreak({ shift, asTested, hour }: HourAnswer, display: Display): string | null {
  if (asTested === null || hour === null) return null;
  const before = `Without it the range would be ${spreadWords(asTested, display)}.`;
  const percent = (share: number) => formatNumber(100 * Math.abs(share), 0);
  if (shift.low < 0)
    return `The break takes ${percent(shift.high)} to ${withUnit(percent(shift.low), '%')} off, and how much is not known for one person. ${before}`;
  if (shift.sd > 0)
    return `The tests are older than 4 weeks: what has changed since adds ${withUnit(formatNumber(100 * shift.sd, 1), '%')} of standard deviation. ${before}`;
  return null;
}

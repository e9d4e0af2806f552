import { withUnit } from '../base/format.ts';
import type { Sport } from '../base/units.ts';
import type { Band, BandProbabilities, TrainingBands } from '../physiology/bands.ts';
import type { Interval, SamplingResult } from '../physiology/samplingTypes.ts';
import { repeatabilityOf, smallestDetectableChange } from '../physiology/training/repeatability.ts';
import { type Figure, type NoticeView, notice, prose, type StackView, stack } from '../view/view.ts';
import {
  type Display,
  heartRateWords,
  intensityWords,
  percentWords,
  rangeWords,
  type Shown,
  spanOf,
} from './display.ts';
import { type Answered, answerOf, unanswered } from './methodRows.ts';
import { isEmptyBand, limitsWords } from './showBands.ts';

const NAMES = { LT1: 'First threshold', LT2: 'Second threshold' } as const;
const TONES = { LT1: 'first', LT2: 'second' } as const;

/** A threshold as a headline number with its interval; says so when there is none. */
export function thresholdFigure(claim: 'LT1' | 'LT2', answer: Answered | null, display: Display): Figure {
  const about = { label: `${NAMES[claim]} (${claim})`, tone: TONES[claim] };
  if (answer === null)
    return { ...about, value: 'no answer', note: 'The reason stands with the methods above.' };
  return { ...figureOf(answer, display), ...about };
}

function figureOf(answer: Answered, display: Display): Pick<Figure, 'value' | 'range' | 'note'> {
  const { intensity, digits, heartRate, name } = answer;
  return {
    value: intensityWords(intensity, display, digits),
    range: rangeOf(answer, display),
    note: [name, secondUnit(intensity, display, digits), bpm(heartRate)].filter(Boolean).join(' · '),
  };
}

function rangeOf(answer: Answered, display: Display): string {
  if (answer.interval === null) return lostWords(answer);
  if (answer.sd === 0) return 'no error set here moves it';
  return `95 % interval ${rangeWords(answer.interval, display, answer.digits)}`;
}

/** The maximal lactate steady state by one method as a headline number; the reason when there is none. */
export function steadyStateFigure(result: SamplingResult, method: string, display: Display): Figure {
  const label = 'Maximal lactate steady state';
  const answer = answerOf(result, method);
  if (answer !== null) return { ...figureOf(answer, display), label, tone: 'second' };
  const reason = unanswered(result).find((refused) => refused.id === method)?.reason;
  return { label, tone: 'second', value: 'no answer', ...(reason && { note: reason }) };
}

/** Why an answer has no interval. */
const lostWords = ({ sampling }: Answered) =>
  `not determined: ${percentWords(sampling.refusedShare)} of the draws give no answer`;

const secondUnit = (intensity: number, display: Display, digits: Shown) =>
  display.second === null ? '' : intensityWords(intensity, display, { ...digits, in: display.second });

const bpm = (heartRate: number | null) => (heartRate === null ? '' : heartRateWords(heartRate));

/** A threshold in a sentence for the athlete. */
export function sayThreshold(answer: Answered | null, display: Display): string {
  if (answer === null) return 'This test does not show it by the chosen method.';
  const { intensity, digits, heartRate } = answer;
  const second = secondUnit(intensity, display, digits);
  const where = [second, heartRate === null ? '' : `about ${heartRateWords(heartRate)}`]
    .filter(Boolean)
    .join(', ');
  return `About **${intensityWords(intensity, display, digits)}**${where === '' ? '' : ` (${where})`}. ${trustWords(answer, display)}`;
}

/** That the two thresholds lie in reverse order, in sentences for the athlete; '' when they do not. */
export function sayOrder(first: Answered | null, second: Answered | null): string {
  if (first === null || second === null || first.intensity < second.intensity) return '';
  return (
    `**At least one of the two is wrong:** ${first.name} puts the first threshold where ${second.name} puts the second, ` +
    'or above it. Do not train by either: choose other methods, or test again.'
  );
}

function trustWords(answer: Answered, display: Display): string {
  const { interval, sd, digits } = answer;
  if (interval === null) return `Do not rely on it; ${lostWords(answer)}.`;
  if (sd === 0) return 'No error that is set here moves it, which does not make it exact.';
  return `It may lie anywhere ${spanOf(interval, display, digits)}${paceSpan(interval, display, digits)} (95 % interval).`;
}

/** What an interval is, for the athlete, where one was given; '' otherwise. */
export const sayInterval = (answers: readonly (Answered | null)[]): string =>
  answers.some((answer) => answer !== null && answer.interval !== null && answer.sd !== 0)
    ? 'A 95 % interval is what the errors of meter and samples leave open, 19 times in 20. Days differ besides.'
    : '';

/** The same range as a pace, for those who go by it; '' without one, or with an end that was not tested. */
function paceSpan({ low, high }: Interval, display: Display, digits: Shown): string {
  if (display.axis !== 'speed' || low.value === null || high.value === null) return '';
  return ` (${[low.value, high.value].map((end) => secondUnit(end, display, digits)).join(' to ')})`;
}

/** What a change from this test to the next one has to exceed, in a sentence for the athlete; '' without an answer. */
export function sayChange(answers: readonly (Answered | null)[], display: Display, sport: Sport): string {
  const changes = answers.flatMap((answer) => {
    if (answer === null || answer.claim === 'MLSS') return [];
    const { variation, short } = repeatabilityOf(answer.id, sport);
    const least = intensityWords(smallestDetectableChange(answer.intensity, variation), display);
    return [{ short, words: `${least} at the ${NAMES[answer.claim].toLowerCase()}` }];
  });
  if (changes.length === 0) return '';
  const sources = [...new Set(changes.map(({ short }) => short))].join('; ');
  return (
    `Two tests of one athlete differ by up to ${changes.map(({ words }) => words).join(' and ')} with nothing changed ` +
    `(95 %; ${sources}): a smaller difference shows no change.`
  );
}

/** The bands in sentences for the athlete, as a Markdown list; why there are none otherwise. */
export function sayBands(bands: TrainingBands, display: Display): string {
  if (bands.refused !== null) return `- No training bands from this test. ${bands.refused}`;
  const decided = bands.bands.filter((band) => !band.undecided);
  const between = bands.bands.flatMap((band) =>
    band.undecided && !isEmptyBand(band) ? [limitsWords(band, display) + secondLimits(band, display)] : [],
  );
  const open = `- **In between**, ${between.join(' and ')}, this test cannot say which it is: plan outside.`;
  return [
    ...decided.map((band) => `- **${band.name}:** ${bandWords(band, display)}.`),
    ...(between.length === 0 ? [] : [open]),
  ].join('\n');
}

const secondLimits = (band: Band, display: Display) =>
  display.second === null ? '' : ` (${limitsWords(band, display, display.second)})`;

const bandWords = (band: Band, display: Display): string =>
  limitsWords(band, display) + secondLimits(band, display) + heartRateClause(band);

function heartRateClause({ heartRateFrom, heartRateTo, from, to }: Band): string {
  if (from === null && heartRateTo !== null) return `, heart rate up to ${withUnit(`${heartRateTo}`, 'bpm')}`;
  if (to === null && heartRateFrom !== null)
    return `, heart rate from ${withUnit(`${heartRateFrom}`, 'bpm')}`;
  if (heartRateFrom === null || heartRateTo === null || heartRateFrom > heartRateTo) return '';
  return `, heart rate ${heartRateFrom}–${withUnit(`${heartRateTo}`, 'bpm')}`;
}

/** Share of draws above the second threshold from which threshold work is called too hard, and doubtful (our rule). */
const TOO_HARD = 0.5;
/** Share from which no doubt is left worth a word (our rule). */
const SURELY = 0.9;
const DOUBTFUL = 0.2;

/**
 * What to make of an intensity for threshold work, by the chances that it lies in each band. Of an example that nobody
 * planned nobody needs to be warned.
 */
export function sayPlanned(chances: BandProbabilities, where: string, isExample: boolean): StackView {
  const { tone, title, body } = verdictOn(chances);
  const example = isExample
    ? 'Nothing is planned yet. As an example, 3 % above the second threshold: at'
    : 'At';
  return stack(
    prose`
      ${example} **${where}**, by the two chosen methods and the errors set above alone, the chances are: below the first
      threshold ${percentWords(chances.below)}, between the two ${percentWords(chances.between)}, above the second
      ${percentWords(chances.above)}.`,
    notice(isExample ? 'note' : tone, `${where}: ${title}`, body),
  );
}

function verdictOn({ below, above }: BandProbabilities): Pick<NoticeView, 'tone' | 'title' | 'body'> {
  const feeling =
    'That it still feels manageable does not decide it: just above the second threshold the first minutes feel ' +
    'like just below, while lactate keeps climbing. ';
  if (above > TOO_HARD) {
    const title =
      above > SURELY
        ? 'very likely above the second threshold'
        : 'more likely above the second threshold than not';
    return { tone: 'caution', title, body: `${feeling}For threshold work go lower.` };
  }
  if (above > DOUBTFUL) {
    const title = 'perhaps above the second threshold';
    return {
      tone: 'caution',
      title,
      body: `${feeling}When the session must stay below, go lower or take lactate.`,
    };
  }
  if (below > TOO_HARD) {
    const title = 'more likely easy than threshold work';
    return { tone: 'note', title, body: 'Good for long hours; lactate should stay at its baseline.' };
  }
  const title = 'fit for threshold work, by these methods';
  return {
    tone: 'good',
    title,
    body:
      'Few draws put it above the second threshold, and few below the first. The draws know the errors of meter and ' +
      'machine only: neither what the method misses nor how the day differs.',
  };
}

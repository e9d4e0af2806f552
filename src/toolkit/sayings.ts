import { withUnit } from '../base/format.ts';
import type { Band, BandProbabilities, TrainingBands } from '../physiology/bands.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { Figure, NoticeView } from '../view/view.ts';
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
import { limitsWords } from './showBands.ts';

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
  const { intensity, interval, digits, heartRate, name } = answer;
  return {
    value: intensityWords(intensity, display, digits),
    range: interval === null ? lostWords(answer) : `95 % interval ${rangeWords(interval, display, digits)}`,
    note: [name, secondUnit(intensity, display, digits), bpm(heartRate)].filter(Boolean).join(' · '),
  };
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
  const { intensity, interval, digits, heartRate } = answer;
  const second = secondUnit(intensity, display, digits);
  const where = [second, heartRate === null ? '' : `about ${heartRateWords(heartRate)}`]
    .filter(Boolean)
    .join(', ');
  const range =
    interval === null
      ? ` Do not rely on it; ${lostWords(answer)}.`
      : ` It may lie anywhere ${spanOf(interval, display, digits)} (95 % interval).`;
  return `About **${intensityWords(intensity, display, digits)}**${where === '' ? '' : ` (${where})`}.${range}`;
}

/** How far repeated tests of one cyclist differ, all causes included (Pallarés 2016, PLoS ONE 11:e0163389, abstract). */
const RETEST = 0.035;
/** Two tests differ by more than this share in one of twenty cases, with nothing changed. */
const SMALLEST_CHANGE = 1.96 * Math.SQRT2 * RETEST;

/** What a change from this test to the next one has to exceed, in sentences for the athlete. */
export function sayChange(answers: readonly (Answered | null)[], display: Display): string {
  const at = answers.flatMap((answer) =>
    answer === null || answer.claim === 'MLSS'
      ? []
      : [
          `${intensityWords(SMALLEST_CHANGE * answer.intensity, display)} at the ${NAMES[answer.claim].toLowerCase()}`,
        ],
  );
  const here = at.length === 0 ? '' : `, here ${at.join(' and ')}`;
  return (
    `Two tests differ by up to ${percentWords(SMALLEST_CHANGE)}${here}, with nothing changed (95 %; repeated tests of ` +
    'cyclists, Pallarés 2016): less than that is no change.'
  );
}

/** The bands in sentences for the athlete, as a Markdown list; why there are none otherwise. */
export function sayBands(bands: TrainingBands, display: Display): string {
  if (bands.refused !== null) return `- No training bands from this test. ${bands.refused}`;
  const decided = bands.bands.filter((band) => !band.undecided);
  return decided.map((band) => `- **${band.name}:** ${bandWords(band, display)}.`).join('\n');
}

function bandWords(band: Band, display: Display): string {
  const pace = display.second === null ? '' : ` (${limitsWords(band, display, display.second)})`;
  return `${limitsWords(band, display)}${pace}${heartRateClause(band)}`;
}

function heartRateClause({ heartRateFrom, heartRateTo, from, to }: Band): string {
  if (from === null && heartRateTo !== null) return `, heart rate up to ${withUnit(`${heartRateTo}`, 'bpm')}`;
  if (to === null && heartRateFrom !== null)
    return `, heart rate from ${withUnit(`${heartRateFrom}`, 'bpm')}`;
  if (heartRateFrom === null || heartRateTo === null || heartRateFrom > heartRateTo) return '';
  return `, heart rate ${heartRateFrom}–${withUnit(`${heartRateTo}`, 'bpm')}`;
}

/** Share of draws above the second threshold from which threshold work is called too hard, and doubtful (our rule). */
const TOO_HARD = 0.5;
const DOUBTFUL = 0.2;

/** What to make of an intensity planned for threshold work, by the chances that it lies in each band. */
export function sayPlanned({ below, above }: BandProbabilities): Pick<NoticeView, 'tone' | 'title' | 'body'> {
  const feeling =
    'That it still feels manageable does not decide it: just above the second threshold the first minutes feel ' +
    'like just below, while lactate keeps climbing. ';
  if (above > TOO_HARD) {
    const title = 'more likely above the second threshold than not';
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

import { withUnit } from '../base/format.ts';
import type { Band, TrainingBands } from '../physiology/bands.ts';
import type { Figure } from '../view/view.ts';
import { type Display, heartRateWords, intensityWords, rangeWords } from './display.ts';
import type { Answered } from './methodRows.ts';
import { limitsWords } from './showBands.ts';

const NAMES = { LT1: 'First threshold', LT2: 'Second threshold' } as const;
const TONES = { LT1: 'first', LT2: 'second' } as const;

/** A threshold as a headline number with its interval; says so when there is none. */
export function thresholdFigure(claim: 'LT1' | 'LT2', answer: Answered | null, display: Display): Figure {
  const about = { label: `${NAMES[claim]} (${claim})`, tone: TONES[claim] };
  if (answer === null)
    return { ...about, value: 'no answer', note: 'The reason stands with the methods above.' };
  const { intensity, interval, sd, heartRate, name } = answer;
  return {
    ...about,
    value: intensityWords(intensity, display, { sd }),
    ...(interval === null ? {} : { range: `95 % interval ${rangeWords(interval, display, { sd })}` }),
    note: [name, secondUnit(intensity, display, sd), bpm(heartRate)].filter(Boolean).join(' · '),
  };
}

const secondUnit = (intensity: number, display: Display, sd: number | null) =>
  display.second === null ? '' : intensityWords(intensity, display, { in: display.second, sd });

const bpm = (heartRate: number | null) => (heartRate === null ? '' : heartRateWords(heartRate));

/** A threshold in a sentence for the athlete. */
export function sayThreshold(answer: Answered | null, display: Display): string {
  if (answer === null) return 'This test does not show it by the chosen method.';
  const { intensity, interval, sd, heartRate } = answer;
  const second = secondUnit(intensity, display, sd);
  const where = [second, heartRate === null ? '' : `about ${heartRateWords(heartRate)}`]
    .filter(Boolean)
    .join(', ');
  const range =
    interval === null ? '' : ` It may as well lie anywhere within ${rangeWords(interval, display, { sd })}.`;
  return `About **${intensityWords(intensity, display, { sd })}**${where === '' ? '' : ` (${where})`}.${range}`;
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

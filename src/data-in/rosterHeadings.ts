import { readHeading } from './headings.ts';
import type { Meaning } from './quantities.ts';
import { TEST_NAMES } from './testNames.ts';

/** What a column of a table of many tests holds. */
export type RosterColumn =
  | { kind: 'name'; index: number; text: string }
  | { kind: 'sport'; index: number; text: string }
  /** A measurement of one stage: `at` is its number, or the intensity that the heading names ('120 W'). */
  | {
      kind: 'cell';
      index: number;
      text: string;
      meaning: Meaning;
      /** Heading of the measurement alone, with its unit. */
      of: string;
      at: string;
      /** Unit of the intensity in `at`; '' when `at` numbers the stage. */
      unit: string;
    }
  | { kind: 'rest'; index: number; text: string }
  /** What a table of one test would have too. */
  | { kind: 'other'; index: number; text: string };

const SPORT_NAMES = /^(sport|discipline|mode)$/i;
const REST_WORDS = /\b(at )?(rest|resting|baseline|pre)\b/i;
/** Each number with what may stand before it; whether it counts a stage, the words around it decide. */
const NUMBERS = /(?<![\d.,])(?:(?:stage|step|level)\s*)?(\d+(?:[.,]\d+)?)\s*/gi;
/** Units that a number in a heading may carry; the longest first. */
const INTENSITY_UNITS = /^(km\/h|kmh|kph|watts?|w|m\/s|mph)(?![\p{L}/])/iu;
const OF_A_STAGE: readonly Meaning[] = ['lactate', 'heartRate', 'rpe', 'duration', 'power', 'speed', 'pace'];
const INTENSITIES: readonly Meaning[] = ['power', 'speed', 'pace'];

const tidy = (text: string) => text.replaceAll('_', ' ').replace(/\s+/g, ' ').trim();

/** The heading without a number and what belongs to it, as the name of a measurement: 'lactate (mmol/L)'. */
const measurementIn = (rest: string) =>
  rest
    .replace(/[([{]\s*[)\]}]/g, ' ')
    .replace(/(^|\s)(at|@|stage|step|level|of|,|:|-)(?=\s|$)/gi, ' ')
    .replace(/[@:,-]+\s*$/, '')
    .replace(/^\s*[@:,-]+/, '')
    .replace(/\s+/g, ' ')
    .trim();

/** A measurement of one stage: 'lactate 120 W', 'La_3', '120 W', 'stage 2 heart rate (bpm)'. */
function stageCell(text: string, index: number): RosterColumn | null {
  const written = tidy(text);
  for (const match of written.matchAll(NUMBERS)) {
    const after = written.slice(match.index + match[0].length);
    const unit = INTENSITY_UNITS.exec(after)?.[0] ?? '';
    const rest = measurementIn(`${written.slice(0, match.index)} ${after.slice(unit.length)}`);
    const at = match[1]!;
    // A number with a unit and nothing else stands above lactates.
    if (rest === '' && unit !== '')
      return { kind: 'cell', index, text, meaning: 'lactate', of: '', at, unit };
    const heading = rest === '' ? null : readHeading(rest);
    if (!heading || heading.unknownUnit !== null || !OF_A_STAGE.includes(heading.meaning)) continue;
    const { meaning } = heading;
    // 'speed 1 km/h' is the speed of stage 1: the unit belongs to the measurement.
    if (!INTENSITIES.includes(meaning)) return { kind: 'cell', index, text, meaning, of: rest, at, unit };
    const of = unit === '' ? rest : `${rest} (${unit})`;
    return { kind: 'cell', index, text, meaning, of, at, unit: '' };
  }
  return null;
}

/** What a heading of a table of many tests says about its column. */
export function rosterColumn(text: string, index: number): RosterColumn {
  const written = tidy(text);
  if (TEST_NAMES.test(written)) return { kind: 'name', index, text };
  if (SPORT_NAMES.test(written)) return { kind: 'sport', index, text };
  const bare = written.replace(REST_WORDS, ' ').trim();
  if (bare !== written && readHeading(bare)?.meaning === 'lactate') return { kind: 'rest', index, text };
  // 'RPE (6-20)' and 'split /500 m' have numbers and are no cells of a stage.
  const heading = readHeading(written);
  const whole = heading !== null && heading.unknownUnit === null;
  return (whole ? null : stageCell(text, index)) ?? { kind: 'other', index, text };
}

import type { Stage } from '../physiology/stepTest.ts';
import type { Column, Columns } from './columns.ts';
import { type EntryReader, hardnessOf } from './entries.ts';
import type { Marks } from './marks.ts';

/** What a row is: nothing, a mere label, what sums up others, the sample at rest, one taken afterwards, or a stage. */
export type RowKind = 'blank' | 'label' | 'summary' | 'rest' | 'recovery' | 'stage';

const REST = /\b(rest|resting|baseline|pre|before|pre-?test)\b/i;
const RECOVERY = /\b(recovery|recover|rec|post|post-?test|after|cool-?down)\b/i;
/** What a report writes before the row below its stages, also in the languages next door. */
const SUMMARY =
  /^(max|maximum|min|minimum|mean|average|avg|peak|total|sum|sd|median|mittelwert|durchschnitt|summe|moyenne|maximale?|media|promedio|gemiddelde)\.?$/i;
const MEASURED = ['lactate', 'heartRate', 'rpe', 'duration'] as const;

const isEmpty = (entries: EntryReader, row: number, column: Column | null) =>
  column === null || entries.entry(row, column).kind === 'missing';

const hasLetters = (text: string) => /\p{L}/u.test(text);

/** Words of a row that say what it is: its stage entry, and its intensity where that is no number. */
function labelOf(entries: EntryReader, row: number, columns: Columns): string {
  const texts = columns.stage.map((column) => entries.text(row, column));
  if (entries.entry(row, columns.intensity).kind !== 'number')
    texts.push(entries.text(row, columns.intensity));
  return texts.filter(hasLetters).join(' ');
}

function kindOf(entries: EntryReader, row: number, columns: Columns, first: boolean): RowKind {
  const measured = MEASURED.some((name) => !isEmpty(entries, row, columns[name]));
  const intensity = entries.entry(row, columns.intensity);
  const label = labelOf(entries, row, columns);
  if (REST.test(label)) return 'rest';
  if (RECOVERY.test(label)) return 'recovery';
  const noIntensity = intensity.kind === 'missing';
  if (noIntensity && !measured)
    return columns.stage.some((column) => !isEmpty(entries, row, column)) ? 'label' : 'blank';
  const atZero = intensity.kind === 'number' && intensity.value === 0;
  return first && (noIntensity || atZero) ? 'rest' : 'stage';
}

/** What each row of the table is; only the first row that holds anything is at rest without saying so. */
export function kindsOf(entries: EntryReader, rows: number, columns: Columns): RowKind[] {
  let first = true;
  let hardest = Number.NEGATIVE_INFINITY;
  return Array.from({ length: rows }, (_, row) => {
    const hard = hardnessOf(entries.entry(row, columns.intensity), columns.intensity);
    // A last stage may be called max, too: it goes beyond the others.
    if (!first && entries.row(row).some((text) => SUMMARY.test(text.trim())) && (hard ?? hardest) <= hardest)
      return 'summary';
    hardest = Math.max(hardest, hard ?? hardest);
    const kind = kindOf(entries, row, columns, first);
    if (kind !== 'blank' && kind !== 'label') first = false;
    return kind;
  });
}

/** The lactate of a row at rest; what else stands there is checked and left alone. */
export function readRest(entries: EntryReader, row: number, columns: Columns, marks: Marks): number | null {
  const marked = REST.test(labelOf(entries, row, columns));
  const { intensity } = columns;
  if (!marked) marks.note('the first row has no intensity, so it is taken as the sample at rest', -1, row);
  const entry = entries.entry(row, intensity);
  if (entry.kind === 'number' && entry.value !== 0)
    marks.problem(
      `marked as rest but with an intensity of "${entries.text(row, intensity)}"; expected none or 0 for the sample at rest`,
      intensity.index,
      row,
    );
  for (const name of MEASURED) if (name !== 'lactate') entries.value(row, columns[name]);
  return entries.value(row, columns.lactate);
}

/** A stage as the row says; where a problem is marked, the stage is never used. */
export function readStage(entries: EntryReader, row: number, columns: Columns, marks: Marks): Stage {
  const { intensity } = columns;
  if (entries.entry(row, intensity).kind === 'missing')
    marks.problem(
      'no intensity; expected one for every stage, or the word rest or recovery',
      intensity.index,
      row,
    );
  return {
    row,
    intensity: entries.value(row, intensity) ?? 0,
    lactate: entries.value(row, columns.lactate),
    heartRate: entries.value(row, columns.heartRate),
    rpe: entries.value(row, columns.rpe),
    minutes: entries.value(row, columns.duration),
    ...(columns.oxygenUptake && { oxygenUptake: entries.value(row, columns.oxygenUptake) }),
  };
}

/** A row taken afterwards: its lactate, and the minute that its label gives ('recovery 3 min'), if any. */
export function readAfter(entries: EntryReader, row: number, columns: Columns) {
  const minute = /(\d+(?:[.,]\d+)?)/.exec(labelOf(entries, row, columns))?.[1];
  return {
    row,
    minute: minute === undefined ? null : Number(minute.replace(',', '.')),
    lactate: entries.value(row, columns.lactate),
  };
}

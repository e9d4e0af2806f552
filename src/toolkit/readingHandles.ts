import type { GridValue } from '../base/grid.ts';
import { readHeading } from '../data-in/headings.ts';
import type { Readings, StepTest } from '../physiology/stepTest.ts';
import type { Grid } from '../view/controls.ts';
import type { Handle } from '../view/view.ts';
import { type Display, intensityWords } from './display.ts';

/** Least and greatest lactate that a reading may be dragged to, and the steps it goes in, mmol/L. */
const LEAST = 0.1;
const MOST = 25;
const STEP = 0.1;

/**
 * The readings of a test as points that can be dragged: each writes into the row of the table that it came from. None
 * for a point that is the mean of several samples.
 */
export function readingHandles(
  stages: Grid,
  { test, readings, display }: { test: StepTest; readings: Readings; display: Display },
): (Handle | null)[] {
  const { value } = stages;
  const column = lactateColumn(value);
  return Array.from(readings.y, (lactate, i) => {
    const row = test.stages[readings.stage[i]!]?.row;
    if (column === null || row === undefined || readings.count[i] !== 1) return null;
    return {
      label: `Reading at ${intensityWords(readings.x[i]!, display)}`,
      value: lactate,
      unit: 'mmol/L',
      min: LEAST,
      max: MOST,
      step: STEP,
      control: stages,
      moved: (moved) => withEntry(value, { row, column, lactate: moved }),
    };
  });
}

/** Place of the one column with lactate; null without, or with several. */
function lactateColumn({ headings }: GridValue): number | null {
  const found = headings.flatMap((text, i) => (readHeading(text)?.meaning === 'lactate' ? [i] : []));
  return found.length === 1 ? found[0]! : null;
}

function withEntry(
  value: GridValue,
  { row, column, lactate }: { row: number; column: number; lactate: number },
): GridValue {
  const { headings, rows } = value;
  const comma = rows.some((entries) => /\d,\d/.test(entries[column] ?? ''));
  const isConverted = readHeading(headings[column]!)?.unit?.factor !== 1;
  // A reading that goes back to where it was has the decimals again that were typed; a converted one has too many.
  const isStep = Number(lactate.toFixed(1)) === lactate;
  const number = isStep ? lactate.toFixed(1) : String(isConverted ? Number(lactate.toFixed(3)) : lactate);
  const text = `${number.replace('.', comma ? ',' : '.')}${isConverted ? ' mmol/L' : ''}`;
  return {
    ...value,
    rows: rows.map((entries, i) => (i === row ? entries.with(column, text) : entries)),
  };
}

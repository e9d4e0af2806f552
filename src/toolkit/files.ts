// What a table needs when somebody opens a file; arrives with the first one.
import { formatNumber } from '../base/format.ts';
import type { GridValue } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import { type Axis, unitOf } from '../base/units.ts';
import type { Activity, Span } from '../data-in/activity/activity.ts';
import { alignSamples, type LactateSample, readSampleTime } from '../data-in/activity/samples.ts';
import { secondBySecond } from '../data-in/activity/secondBySecond.ts';
import { intensityOf, type Stretch, stretchesOf, usualAxis } from '../data-in/activity/stretches.ts';
import {
  firstSpans,
  hasLaps,
  repsAmong,
  repTable,
  stageTable,
  withoutBreaks,
} from '../data-in/activity/tables.ts';
import { QUANTITIES, unitNamed } from '../data-in/quantities.ts';
import { readAnyFile } from '../data-in/readAnyFile.ts';
import { MILLIMOLAR } from '../data-in/unitSpellings.ts';
import type { RecordingUse } from '../view/controls.ts';

export type { Span } from '../data-in/activity/activity.ts';
export type { Stretch } from '../data-in/activity/stretches.ts';
export * from './broughtTable.ts';

/** Text that a table reads. */
interface OpenedTable {
  kind: 'table';
  text: string;
  notes: string[];
  /** Of a spreadsheet, and the one that was read; empty and null for other files. */
  sheets: string[];
  sheet: string | null;
}

/** How much of each stretch of a recording its means are taken over. */
export interface Windows {
  /** Length of the windows at the end of each stretch, s. */
  intensity: number;
  heartRate: number;
}

/** A recording, to be cut into stages or reps by whoever looks at it. */
export interface OpenedRecording {
  kind: 'recording';
  use: 'stages' | 'reps';
  unit: string;
  /** ms since 1970 (UTC). */
  start: number;
  /** s */
  length: number;
  notes: string[];
  /** Whether it can be cut by its laps, which goes before its steps. */
  hasLaps: boolean;
  /** The stretches that it is cut into at first, and which of them are taken for stages or reps. */
  cut(by: 'laps' | 'steps'): { spans: Span[]; taken: boolean[] };
  /** Highest intensity in each of equal parts, for an overview; NaN where nothing was recorded. */
  outline: number[];
  stretches(spans: readonly Span[], windows: Windows): Stretch[];
  /**
   * The text of a table. `samples` holds a lactate sample a line, by stage, clock time or time from the start, as `offset`
   * minutes from UTC tell it. Throws InputError for one that cannot be read or belongs to no stretch.
   */
  table(stretches: readonly Stretch[], samples: string, offset: number): string;
}

/** Parts of the overview: finer is not seen. */
const PARTS = 600;

/** Opens whatever somebody brought for a table. Throws InputError for a file that is none, or is of no use to it. */
export async function openFile(
  bytes: Uint8Array,
  name: string,
  use: RecordingUse | undefined,
  sheet?: string,
): Promise<OpenedTable | OpenedRecording> {
  const file = await readAnyFile(bytes, name, sheet === undefined ? {} : { sheet });
  if (file.kind === 'table') return file;
  if (use === undefined)
    throw new InputError(`${name}: the recording of a device; expected a table, as text or spreadsheet`, {
      file: name,
    });
  if (use === 'all')
    return {
      kind: 'table',
      text: wholeTable(file.activity),
      notes: file.activity.notes,
      sheets: [],
      sheet: null,
    };
  return openRecording(file.activity, use);
}

function openRecording(activity: Activity, use: 'stages' | 'reps'): OpenedRecording {
  const axis = usualAxis(activity);
  return {
    kind: 'recording',
    use,
    unit: unitOf(axis),
    start: 1000 * activity.start,
    length: activity.seconds.at(-1)! + 1,
    notes: activity.notes,
    hasLaps: hasLaps(activity),
    cut(by) {
      const { spans } = firstSpans(activity, axis, by);
      const stretches = stretchesOf(activity, spans, { axis });
      const taken = new Set(use === 'reps' ? repsAmong(stretches) : withoutBreaks(stretches));
      return { spans, taken: stretches.map((stretch) => taken.has(stretch)) };
    },
    outline: outlineOf(activity, axis),
    stretches: (given, { intensity, heartRate }) =>
      stretchesOf(activity, given, { axis, intensityWindow: intensity, heartRateWindow: heartRate }),
    table: (given, samples, offset) => {
      const lactates = alignSamples(given, readSamples(samples, activity, offset));
      return textOf((use === 'reps' ? repTable : stageTable)(given, axis, lactates));
    },
  };
}

function outlineOf(activity: Activity, axis: Axis): number[] {
  const recorded = intensityOf(activity, axis);
  if (!recorded) return [];
  const values = secondBySecond(activity, recorded);
  const parts = Math.min(PARTS, values.length);
  return Array.from({ length: parts }, (_, part) => {
    const from = Math.floor((part * values.length) / parts);
    const until = Math.floor(((part + 1) * values.length) / parts);
    const known = values.subarray(from, until).filter((value) => !Number.isNaN(value));
    return known.length === 0 ? NaN : known.reduce((most, value) => Math.max(most, value));
  });
}

/** A time, then a lactate: '3 2.1', '10:42 = 2,1 mmol/L'. */
const SAMPLE = /^(.+?)(?:\s*[;=]\s*|:?\s+)(\d+(?:[.,]\d+)?)\s*(m\S.*)?$/i;

function readSamples(text: string, activity: Activity, offset: number): LactateSample[] {
  const lines = text.split(/\r\n|\n|\r/).map((line) => line.trim());
  return lines.filter(Boolean).map((line) => {
    const match = SAMPLE.exec(line);
    const unit = unitNamed(match?.[3] ?? MILLIMOLAR.label, QUANTITIES.lactate);
    if (!match || !unit)
      throw new InputError(
        `"${line}" is no lactate sample; expected its time or stage, then mmol/L, such as 10:42 2.1`,
      );
    const written = Number(match[2]!.replace(',', '.'));
    const lactate = unit.factor === 1 ? written : Number((written * unit.factor).toFixed(2));
    return { at: readSampleTime(match[1]!, activity, offset), lactate };
  });
}

const textOf = ({ headings, rows }: GridValue): string =>
  [headings, ...rows].map((row) => row.join('\t')).join('\n');

/** Every sample of the recording. */
function wholeTable(activity: Activity): string {
  const { seconds, power, speed, heartRate } = activity;
  const columns = [
    { heading: 'elapsed (s)', values: seconds, decimals: 0 },
    { heading: 'power (W)', values: power, decimals: 0 },
    { heading: 'speed (km/h)', values: power ? null : speed, decimals: 2 },
    { heading: 'heart rate (bpm)', values: heartRate, decimals: 0 },
  ].filter((column) => column.values !== null);
  const entry = (value: number, decimals: number) =>
    Number.isNaN(value) ? '' : formatNumber(value, decimals);
  return textOf({
    headings: columns.map(({ heading }) => heading),
    rows: Array.from(seconds, (_, i) => columns.map(({ values, decimals }) => entry(values![i]!, decimals))),
  });
}

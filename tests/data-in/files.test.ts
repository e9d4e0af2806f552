import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { stepTestFromText } from '../../src/data-in/fromText.ts';
import { readAnyFile } from '../../src/data-in/readAnyFile.ts';

const folder = new URL('files/', import.meta.url);

interface Expected {
  sport?: string;
  axis?: string;
  x: number[];
  lactate: (number | null)[];
  heartRate?: (number | null)[];
  rpe?: (number | null)[];
  minutes?: (number | null)[];
  rest?: number;
  stageMinutes?: number | null;
  mass?: number;
  /** A part of one of the notes. */
  note?: string;
}

/** Three stages that many of the files share. */
const THREE = { x: [100, 150, 200], lactate: [1, 1.4, 3.1] };
const FOUR = { x: [100, 150, 200, 250], lactate: [1, 1.4, 3.1, 5.8] };
const FOUR_MINUTES = { ...FOUR, minutes: [4, 4, 4, 2.5], stageMinutes: 4 };

/** What each file in files/ says, written down from the file by hand. */
const EXPECTED: Record<string, Expected> = {
  'comma.csv': {
    sport: 'cycling',
    axis: 'power',
    x: [120, 160, 200, 240],
    lactate: [0.9, 1.1, 1.6, 3.4],
    heartRate: [110, 124, 140, 158],
    rpe: [8, 10, 13, 16],
    note: 'Sport not stated; taken as cycling',
  },
  'semicolon-decimal-comma.csv': {
    x: [100, 140, 180, 220],
    lactate: [1.1, 0.9, 1.75, 4.2],
    heartRate: [105, 121, 139, 160],
  },
  'semicolon-decimal-point.csv': { x: [100, 140, 180], lactate: [1.1, 0.9, 1.8] },
  'pasted-from-spreadsheet.txt': {
    sport: 'running',
    axis: 'speed',
    x: [8, 9.5, 11],
    lactate: [1.3, 1.8, 3.6],
    heartRate: [132, 147, 163],
  },
  'on-its-side.csv': { ...FOUR, heartRate: [110, 131, 155, 172], note: 'lay on its side' },
  'on-its-side-with-units.csv': { ...FOUR, heartRate: [110, 131, 155, 172], note: 'Test indoors' },
  'milligrams.csv': {
    // 9.008 mg/dL to 1 mmol/L; the last entry says its own unit.
    x: [100, 150, 200],
    lactate: [1.5, 2.5, 3.1],
    note: 'is converted: 1 mmol/L is 9.01 mg/dL',
  },
  'single-spaces.txt': { ...THREE, heartRate: [110, 131, 155] },
  'tildes.txt': THREE,
  'summary-rows.csv': { ...FOUR, note: 'sums up other rows' },
  'last-stage-called-max.csv': FOUR,
  'bom-crlf.csv': THREE,
  'old-mac-line-ends.csv': THREE,
  'quoted.csv': { x: [100, 150, 200], lactate: [1.05, 1.4, 3.1] },
  'heading-with-line-break.csv': THREE,
  'notes-above.csv': { ...THREE, note: 'Indoor test, bench analyser' },
  'comments-anywhere.csv': { ...THREE, note: 'stopped by the athlete, legs' },
  'units-row.csv': { ...THREE, heartRate: [110, 131, 155] },
  'named-delimiter.csv': THREE,
  'other-order-other-case.csv': { ...THREE, heartRate: [110, 131, 155], rpe: [9, 12, 16] },
  'rest-by-word.csv': { ...THREE, rest: 1.3 },
  'rest-in-intensity-column.csv': { ...THREE, rest: 1.3 },
  'rest-by-zero.csv': { ...THREE, rest: 1.3, note: 'Line 2: the first row has no intensity' },
  'rest-and-recovery.csv': { ...THREE, rest: 1.2, note: 'Line 7: a recovery sample' },
  'missing-values.csv': {
    x: [100, 150, 200, 250],
    lactate: [1, null, 1.9, 3.8],
    heartRate: [110, null, null, 170],
    rpe: [null, 11, null, 17],
  },
  'minutes.csv': FOUR_MINUTES,
  'clock-durations.csv': FOUR_MINUTES,
  'seconds.csv': FOUR_MINUTES,
  'units-in-entries.csv': { ...FOUR_MINUTES, heartRate: [110, 131, 155, 172] },
  'metres-per-second.csv': {
    sport: 'running',
    axis: 'speed',
    x: [10.8, 12.6, 14.4],
    lactate: [1.2, 1.7, 3.3],
  },
  'pace-per-km.csv': { sport: 'running', axis: 'speed', x: [10, 12, 15], lactate: [1.2, 1.7, 3.3] },
  // 10, 12 and 15 km/h: 1.609344 km take 9.656064, 8.04672 and 6.437376 min.
  'pace-per-mile.csv': { sport: 'running', axis: 'speed', x: [10, 12, 15], lactate: [1.2, 1.7, 3.3] },
  'rowing-splits.csv': { sport: 'rowing', axis: 'speed', x: [12, 14.4, 16], lactate: [1.1, 1.8, 3.9] },
  'rowing-watts-and-splits.csv': {
    sport: 'rowing',
    axis: 'power',
    x: [150, 200, 250],
    lactate: [1.1, 1.8, 3.9],
    note: '"split" is not used beside "power (W)"',
  },
  'body-mass.csv': { ...THREE, mass: 71.5 },
  'elapsed-time.csv': {
    ...FOUR,
    minutes: [null, null, null, null],
    stageMinutes: null,
    note: 'taken as a clock',
  },
  'labels-and-empty-rows.csv': { ...THREE, note: 'Line 6: holds no measurement' },
  'trailing-commas.csv': THREE,
  'wide-minus-and-spaces.csv': { x: [100, 150, 200], lactate: [1, null, 3.1] },
  'replicates-and-falling.csv': { x: [200, 200, 150, 250], lactate: [2, 2.2, 1.4, 4.1] },
  'percent-heart-rate-too.csv': { ...THREE, heartRate: [110, 131, 155] },
  'bars.txt': { ...THREE, heartRate: [110, 131, 155] },
  'set-with-spaces.txt': { ...THREE, heartRate: [110, null, 155] },
  'latin-1.csv': { ...THREE, note: 'Prüfung drinnen, 20 °C' },
  'utf-16-le.csv': THREE,
  'utf-16-be.csv': { ...THREE, note: 'Ω – é' },
  'utf-16-without-mark.csv': THREE,
  'quoted-delimiters.csv': { ...THREE, heartRate: [110, 131, 155] },
  'decimal-comma-in-quotes.csv': { x: [100, 150, 200], lactate: [1.05, 1.4, 3.1] },
  'headings-after-many-notes.csv': { ...THREE, note: 'note 40' },
  'headings-like-properties.csv': { ...THREE, note: 'Not used: "__proto__", "constructor"' },
};

test('every file has an expected reading', () => {
  const files = readdirSync(folder, { withFileTypes: true }).filter(
    (entry) => entry.isFile() && entry.name !== 'make.py',
  );
  expect(files.map(({ name }) => name).sort()).toEqual(Object.keys(EXPECTED).sort());
});

test.each(Object.entries(EXPECTED))('%s', async (name, expected) => {
  const file = await readAnyFile(readFileSync(new URL(name, folder)), name);
  if (file.kind !== 'table') throw new Error(`${name} was taken for a recording`);
  const read = stepTestFromText(file.text, { file: name });
  const column = (key: 'lactate' | 'heartRate' | 'rpe' | 'minutes') => read.stages.map((stage) => stage[key]);
  expect(read.stages).toHaveLength(expected.x.length);
  for (const [i, { intensity }] of read.stages.entries()) expect(intensity).toBeCloseTo(expected.x[i]!, 9);
  expect(column('lactate')).toEqual(expected.lactate);
  expect(read.restLactate).toBe(expected.rest ?? null);
  expect(read.sport).toBe(expected.sport ?? 'cycling');
  expect(read.axis).toBe(expected.axis ?? 'power');
  expect(read.bodyMass).toBe(expected.mass ?? null);
  if (expected.heartRate) expect(column('heartRate')).toEqual(expected.heartRate);
  if (expected.rpe) expect(column('rpe')).toEqual(expected.rpe);
  if (expected.minutes) expect(column('minutes')).toEqual(expected.minutes);
  if (expected.stageMinutes !== undefined) expect(read.stageMinutes).toBe(expected.stageMinutes);
  if (expected.note) expect(read.notes.join('\n')).toContain(expected.note);
});

test.each(['<!doctype html>\n<html>1;2', '\n<html lang="en"><td>100</td>'])(
  'a web page is no table: %j',
  async (text) => {
    const file = await readAnyFile(new TextEncoder().encode(text), 'page.csv');
    expect(() => stepTestFromText((file as { text: string }).text, { file: 'page.csv' })).toThrow(
      /^page\.csv: a web page; expected a table or a recording\./,
    );
  },
);

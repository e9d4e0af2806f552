import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { convertIntensity } from '../../src/base/units.ts';
import { stepTestFromText } from '../../src/data-in/fromText.ts';
import { checkStepTest, readStageTable, readStepTest } from '../../src/data-in/stages.ts';

// Hundreds of tables in each test; a busy machine takes its time.
vi.setConfig({ testTimeout: 60_000 });

const SEED = { seed: 20261125, numRuns: 600 };

/** Pieces that tables are made of, so that random texts come near to real ones. */
const piece = fc.constantFrom(
  ...[
    'power',
    'lactate',
    'HR',
    'pace min/km',
    'split',
    'duration',
    'time',
    'rest',
    'recovery',
    'stage',
    'RPE',
  ],
  ...[
    '120',
    '1.5',
    '1,5',
    '1,234',
    '4:00',
    '-',
    'NA',
    '-3',
    '400',
    '4\'30"',
    'W',
    'mmol/L',
    '(',
    '[',
    '#',
    '# x',
  ],
  ...[',', ';', '\t', '\n', '\r\n', '\r', '"', '""', ' ', '\ufeff', 'sep=;\n', '\u0000', '⁻¹', '٣', 'Ω'],
);
const nearText = fc.array(piece, { maxLength: 60 }).map((pieces) => pieces.join(''));
const underHeadings = nearText.map((text) => `power;lactate;HR\n120;1.1;110\n${text}`);
const anyText = fc.oneof(nearText, underHeadings, fc.string({ unit: 'binary', maxLength: 200 }));

/** Runs what may refuse; anything but an InputError is a fault of ours. */
function refusalOf(run: () => unknown): InputError | null {
  try {
    run();
    return null;
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return error as InputError;
  }
}

describe('any text', () => {
  test('gives a step test or an InputError that names file and line', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const refusal = refusalOf(() => stepTestFromText(text, { file: 'f.csv' }));
        if (refusal) expect(refusal.message).toMatch(/^f\.csv, line \d+/);
      }),
      SEED,
    );
  });

  test('is refused by the import exactly when the check finds a problem', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        let table: ReturnType<typeof readStageTable>;
        try {
          table = readStageTable(text);
        } catch {
          return;
        }
        const problems = checkStepTest(table).filter((mark) => mark.tone === 'problem');
        expect(refusalOf(() => readStepTest(table)) !== null).toBe(problems.length > 0);
        for (const { row, column } of problems) {
          expect(row).toBeLessThan(table.rows.length);
          expect(column).toBeLessThan(table.headings.length);
        }
      }),
      SEED,
    );
  });
});

interface Row {
  x: number;
  lactate: number | null;
  heartRate: number | null;
}

const rows = fc.array(
  fc.record<Row>({
    x: fc.integer({ min: 50, max: 450 }),
    lactate: fc.option(fc.integer({ min: 3, max: 200 }).map((tenths) => tenths / 10)),
    heartRate: fc.option(fc.integer({ min: 60, max: 210 })),
  }),
  { minLength: 1, maxLength: 12 },
);
const layout = fc.record({
  delimiter: fc.constantFrom(',', ';', '\t'),
  newline: fc.constantFrom('\n', '\r\n', '\r'),
  decimalComma: fc.boolean(),
  missing: fc.constantFrom('', '-', 'NA', 'n/a'),
  order: fc.shuffledSubarray([0, 1, 2], { minLength: 3 }),
});

describe('a written table', () => {
  test('reads back as it was, whatever the delimiter, decimal mark and order of columns', () => {
    fc.assert(
      fc.property(rows, layout, (stages, { delimiter, newline, decimalComma, missing, order }) => {
        fc.pre(stages.some((stage) => stage.lactate !== null));
        // Between commas a decimal comma stands in quotation marks.
        const write = (value: number | null) => {
          if (value === null) return missing;
          const text = decimalComma ? String(value).replace('.', ',') : String(value);
          return delimiter === ',' && text.includes(',') ? `"${text}"` : text;
        };
        const arrange = (entries: string[]) => order.map((i) => entries[i]!).join(delimiter);
        const lines = [
          arrange(['power (W)', 'lactate (mmol/L)', 'heart rate (bpm)']),
          ...stages.map(({ x, lactate, heartRate }) => arrange([write(x), write(lactate), write(heartRate)])),
        ];
        const read = stepTestFromText(lines.join(newline));
        expect(
          read.stages.map(({ intensity: x, lactate, heartRate }) => ({ x, lactate, heartRate })),
        ).toEqual(stages);
      }),
      SEED,
    );
  });
});

/** m:ss with four decimals, as finely as a pace is ever written. */
function clock(minutes: number): string {
  const tenThousandths = Math.round(minutes * 600_000);
  const whole = Math.floor(tenThousandths / 600_000);
  return `${whole}:${((tenThousandths % 600_000) / 10_000).toFixed(4).padStart(7, '0')}`;
}

describe('speeds and paces', () => {
  test.each([
    ['speed (m/s)', 'm/s', String],
    ['pace (min/km)', 'min/km', clock],
    ['pace (min/mile)', 'min/mile', clock],
    ['split (/500 m)', 'min/500 m', clock],
  ] as const)('%s: converted for display and read back, the speed is the same', (heading, unit, write) => {
    fc.assert(
      fc.property(fc.double({ min: 4, max: 25, noNaN: true }), (kmh) => {
        const shown = write(convertIntensity(kmh, 'speed', unit)!);
        const { stages } = stepTestFromText(`${heading};lactate\n${shown};1.0\n`, { sport: 'rowing' });
        // The written pace is rounded to 0.0001 s in at least 72 s.
        expect(Math.abs(stages[0]!.intensity / kmh - 1)).toBeLessThan(1e-6);
      }),
      SEED,
    );
  });

  test('outside figures: 4:00 min/km is 15 km/h, 5 m/s is 18 km/h, 2:00 for 500 m is 15 km/h', () => {
    const speed = (heading: string, entry: string) =>
      stepTestFromText(`${heading},lactate\n${entry},1.0\n`).stages[0]!.intensity;
    expect(speed('pace (min/km)', '4:00')).toBeCloseTo(15, 12);
    expect(speed('speed (m/s)', '5')).toBeCloseTo(18, 12);
    expect(speed('split', '2:00')).toBeCloseTo(15, 12);
    expect(speed('speed (mph)', '10')).toBeCloseTo(16.09344, 12);
    expect(speed('speed (m/min)', '250')).toBeCloseTo(15, 12);
  });
});

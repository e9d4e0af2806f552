import { walkXml } from './xml.ts';

/** How a spreadsheet shows a number: as it is, as a time of day or a length, or as a date. */
export type CellFormat = 'number' | 'date' | { clock: 'h:mm' | 'h:mm:ss' | 'mm:ss' };

const DAY = 86_400;
/** Day 0 of the usual date system, ms; its day 60 never was, so that dates before March 1900 are a day off. */
const EPOCH = Date.UTC(1899, 11, 30);
/** Formats that every workbook knows by number (ECMA-376 part 1, 18.8.30). */
const BUILT_IN: Record<number, CellFormat> = {
  14: 'date',
  15: 'date',
  16: 'date',
  17: 'date',
  22: 'date',
  18: { clock: 'h:mm' },
  19: { clock: 'h:mm:ss' },
  20: { clock: 'h:mm' },
  21: { clock: 'h:mm:ss' },
  45: { clock: 'mm:ss' },
  46: { clock: 'h:mm:ss' },
  47: { clock: 'mm:ss' },
};

/** What a format of the user's own shows, from its code such as '[h]:mm:ss' or 'yyyy-mm-dd'. */
function formatOf(code: string): CellFormat {
  const plain = code
    .toLowerCase()
    .split(';')[0]!
    .replace(/"[^"]*"|\\.|_.|\*./g, '')
    .replace(/\[(?!h+\]|m+\]|s+\])[^\]]*\]/g, '')
    .replace(/general/g, '');
  if (/[yd]/.test(plain)) return 'date';
  const seconds = plain.includes('s');
  if (plain.includes('h')) return { clock: seconds ? 'h:mm:ss' : 'h:mm' };
  return seconds && plain.includes('m') ? { clock: 'mm:ss' } : 'number';
}

/** The formats of a workbook's cells, by their style number. */
export function readFormats(xml: string, file: string): CellFormat[] {
  const own = new Map<number, CellFormat>();
  const formats: CellFormat[] = [];
  let inCells = false;
  walkXml(xml, file, {
    open(name, attribute) {
      if (name === 'numFmt') own.set(Number(attribute('numFmtId')), formatOf(attribute('formatCode') ?? ''));
      if (name === 'cellXfs') inCells = true;
      if (name !== 'xf' || !inCells) return;
      const id = Number(attribute('numFmtId') ?? 0);
      formats.push(own.get(id) ?? BUILT_IN[id] ?? 'number');
    },
    close(name) {
      if (name === 'cellXfs') inCells = false;
    },
  });
  return formats;
}

const two = (value: number) => String(value).padStart(2, '0');

function clockText(days: number, clock: 'h:mm' | 'h:mm:ss' | 'mm:ss'): string {
  // To a thousandth: a time is stored as a share of a day and hardly ever exact.
  const thousandths = Math.round(days * DAY * 1000);
  const whole = Math.floor(thousandths / 1000);
  const part =
    thousandths % 1000 === 0
      ? ''
      : `.${String(thousandths % 1000)
          .padStart(3, '0')
          .replace(/0+$/, '')}`;
  const [hours, minutes, seconds] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  if (clock === 'mm:ss') return `${60 * hours + minutes}:${two(seconds)}${part}`;
  return clock === 'h:mm' && seconds === 0 && part === ''
    ? `${hours}:${two(minutes)}`
    : `${hours}:${two(minutes)}:${two(seconds)}${part}`;
}

function dateText(days: number): string {
  const text = new Date(EPOCH + Math.round(days * DAY) * 1000).toISOString();
  return text.endsWith('T00:00:00.000Z') ? text.slice(0, 10) : text.slice(0, 19).replace('T', ' ');
}

/** Latest day that a spreadsheet has, 31 December 9999. */
const LAST_DAY = 2_958_465;

/** A stored number as the sheet shows it, without rounding. */
export function numberText(stored: string, format: CellFormat): string {
  const value = Number(stored);
  if (!Number.isFinite(value) || stored.trim() === '') return stored;
  // Fifteen digits are what a spreadsheet keeps: 0.30000000000000004 was 0.3.
  if (format === 'number' || value < 0 || value > LAST_DAY) return String(Number(value.toPrecision(15)));
  return format === 'date' ? dateText(value) : clockText(value, format.clock);
}

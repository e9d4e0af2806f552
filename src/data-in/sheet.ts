import { InputError } from '../base/inputError.ts';
import { type CellFormat, numberText } from './cellFormats.ts';
import { walkXml } from './xml.ts';

/** A cell of a spreadsheet as the text that a reader would see in it. */
export interface Cell {
  /** 0-based. */
  row: number;
  column: number;
  text: string;
}

interface SheetContext {
  texts: readonly string[];
  formats: readonly CellFormat[];
  /** Gets what had to be decided. */
  notes: string[];
  /** File and sheet, for messages. */
  where: string;
  file: string;
}

/** More than a table of 200,000 rows and ten columns. */
const MOST_CELLS = 2_000_000;
/** Merged cells that are filled; headings need a few dozen. */
const MOST_FILLED = 100_000;
const REFERENCE = /^([A-Z]{1,3})(\d{1,7})$/;

const lettersToIndex = (letters: string) =>
  [...letters].reduce((sum, letter) => 26 * sum + letter.charCodeAt(0) - 64, 0) - 1;

function placeOf(reference: string | undefined): { row: number; column: number } | null {
  const match = REFERENCE.exec(reference ?? '');
  return match ? { row: Number(match[2]) - 1, column: lettersToIndex(match[1]!) } : null;
}

/** Entries that say there is no number. */
const NO_VALUE: Record<string, string> = { '#N/A': 'NA', '#NULL!': 'NA' };

/** One cell while it is read. */
interface Open {
  place: { row: number; column: number };
  type: string;
  style: number;
  value: string;
  formula: boolean;
}

function textOf({ type, style, value }: Open, { texts, formats }: SheetContext): string {
  switch (type) {
    case 's':
      return texts[Number(value)] ?? '';
    case 'b':
      return value === '1' ? 'yes' : 'no';
    case 'e':
      return NO_VALUE[value] ?? value;
    case 'd':
    case 'str':
    case 'inlineStr':
      return value;
    default:
      return numberText(value, formats[style] ?? 'number');
  }
}

/** Reads the cells of a sheet in their order, and its merged ranges. */
class SheetReader {
  readonly cells: Cell[] = [];
  readonly merged: string[] = [];
  readonly withoutValue: string[] = [];
  readonly #context: SheetContext;
  #open: Open | null = null;
  #inValue = false;
  #inReading = false;
  #row = -1;
  #column = -1;

  constructor(context: SheetContext) {
    this.#context = context;
  }

  open(name: string, attribute: (name: string) => string | undefined): void {
    if (name === 'row') this.#openRow(attribute('r'));
    else if (name === 'c') this.#openCell(attribute);
    else if (name === 'mergeCell') this.merged.push(attribute('ref') ?? '');
    else if (name === 'rPh') this.#inReading = true;
    else if (name === 'f' && this.#open) this.#open.formula = true;
    this.#inValue = (name === 'v' || name === 't') && !this.#inReading;
  }

  close(name: string): void {
    if (name === 'rPh') this.#inReading = false;
    if (name === 'v' || name === 't') this.#inValue = false;
    if (name === 'c') this.#closeCell();
  }

  text(text: string): void {
    if (this.#open && this.#inValue) this.#open.value += text;
  }

  /** Rows and cells may leave their place out; then they follow the one before. */
  #openRow(number: string | undefined): void {
    this.#row = number && /^\d{1,7}$/.test(number) ? Number(number) - 1 : this.#row + 1;
    this.#column = -1;
  }

  #openCell(attribute: (name: string) => string | undefined): void {
    const place = placeOf(attribute('r')) ?? { row: Math.max(0, this.#row), column: this.#column + 1 };
    this.#column = place.column;
    const [type, style] = [attribute('t') ?? 'n', Number(attribute('s') ?? 0)];
    this.#open = { place, type, style, value: '', formula: false };
  }

  #closeCell(): void {
    const cell = this.#open;
    this.#open = null;
    if (!cell) return;
    if (cell.formula && cell.value === '')
      this.withoutValue.push(`row ${cell.place.row + 1}, column ${cell.place.column + 1}`);
    const text = cell.value === '' ? '' : textOf(cell, this.#context);
    if (text === '') return;
    if (this.cells.length >= MOST_CELLS) {
      const { where, file } = this.#context;
      throw new InputError(`${where}: over ${MOST_CELLS} cells; expected the table of a test`, { file });
    }
    this.cells.push({ ...cell.place, text });
  }
}

/** The entry of each merged range in its other cells, as far as the sheet has entries at all. */
function filled(cells: readonly Cell[], merged: readonly string[]): Cell[] {
  const [lastRow, lastColumn] = cells.reduce(
    ([row, column], cell) => [Math.max(row, cell.row), Math.max(column, cell.column)],
    [0, 0],
  );
  const at = new Map(
    merged.length === 0 ? [] : cells.map((cell) => [`${cell.row} ${cell.column}`, cell.text]),
  );
  const more: Cell[] = [];
  for (const range of merged) {
    const [from, to] = range.split(':').map(placeOf);
    if (!from || !to) continue;
    const text = at.get(`${from.row} ${from.column}`);
    if (text === undefined) continue;
    for (let row = from.row; row <= Math.min(to.row, lastRow); row++)
      for (let column = from.column; column <= Math.min(to.column, lastColumn); column++) {
        if (row === from.row && column === from.column) continue;
        if (more.length >= MOST_FILLED) return more;
        more.push({ row, column, text });
      }
  }
  return more;
}

/** Cells of a sheet with something in them. */
export function readSheet(xml: string, context: SheetContext): Cell[] {
  const reader = new SheetReader(context);
  walkXml(xml, context.file, {
    open: (name, attribute) => reader.open(name, attribute),
    close: (name) => reader.close(name),
    text: (text) => reader.text(text),
  });
  const { cells, merged, withoutValue } = reader;
  if (withoutValue.length > 0)
    context.notes.push(
      `${withoutValue.length === 1 ? 'A formula has' : `${withoutValue.length} formulas have`} no stored value and ${withoutValue.length === 1 ? 'reads' : 'read'} as empty, the first in ${withoutValue[0]}; open and save the file in a spreadsheet to store them.`,
    );
  return [...cells, ...filled(cells, merged)];
}

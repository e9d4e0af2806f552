/**
 * Workbooks of the .xlsx kind (ECMA-376 part 1, SpreadsheetML), read as text.
 *
 * The libraries for whole spreadsheets are either heavy (over 100 KB gzipped, with writing, styles and formulas) or no longer
 * kept up in the registry, and all of them unpack before they ask for the size. A table of a test needs a fraction: an
 * archive (fflate, MIT, 4 KB gzipped for unpacking), XML (saxen, MIT, 3 KB gzipped) and the three hundred lines here. Both
 * packages saw a release within the year.
 */
import { tsvFormatRows } from 'd3-dsv';
import { InputError } from '../base/inputError.ts';
import { unpack } from './archive.ts';
import { type CellFormat, readFormats } from './cellFormats.ts';
import { MOST_COLUMNS, MOST_ROWS } from './layout.ts';
import { type Cell, readSheet } from './sheet.ts';
import { walkXml, xmlText } from './xml.ts';

/** One sheet of a spreadsheet as the text of a table. */
export interface SheetText {
  /** Names of all sheets with cells, in their order. */
  sheets: string[];
  /** The one that was read. */
  sheet: string;
  /** Its rows as lines, its cells between tabs; line numbers are row numbers. */
  text: string;
  /** What had to be decided, in sentences. */
  notes: string[];
}

interface Part {
  name: string;
  path: string;
}

const PARTS =
  /^\/?xl\/(workbook\.xml|_rels\/workbook\.xml\.rels|sharedStrings\.xml|styles\.xml|worksheets\/[^/]+\.xml)$/i;
/** Path of a part that a relationship names, from the folder of the workbook or from the root. */
const pathOf = (target: string) =>
  target.startsWith('/') ? target.slice(1) : `xl/${target.replace(/^\.\//, '')}`;

function sheetsOf(workbook: string, relations: string, file: string): Part[] {
  const targets = new Map<string, string>();
  walkXml(relations, file, {
    open(name, attribute) {
      const [id, target] = [attribute('Id'), attribute('Target')];
      if (name === 'Relationship' && id && target) targets.set(id, pathOf(target));
    },
    close() {},
  });
  const sheets: Part[] = [];
  walkXml(workbook, file, {
    open(name, attribute) {
      const path = targets.get(attribute('r:id') ?? attribute('id') ?? '');
      if (name === 'sheet' && path) sheets.push({ name: attribute('name') ?? path, path });
    },
    close() {},
  });
  return sheets;
}

/** Shared texts by their number; the readings of East Asian words beside them are left out. */
function sharedTexts(xml: string, file: string): string[] {
  const texts: string[] = [];
  let [inText, inReading] = [false, false];
  walkXml(xml, file, {
    open(name) {
      if (name === 'si') texts.push('');
      if (name === 'rPh') inReading = true;
      inText = name === 't' && !inReading;
    },
    close(name) {
      if (name === 'rPh') inReading = false;
      if (name === 't') inText = false;
    },
    text(text) {
      if (inText && texts.length > 0) texts[texts.length - 1] += text;
    },
  });
  return texts;
}

/** Rows of text from cells at their places; a merged range holds its entry in each of its cells. */
function rowsOf(cells: readonly Cell[], where: string, file: string): string[][] {
  const rows: string[][] = [];
  for (const { row, column, text } of cells) {
    if (row >= MOST_ROWS || column >= MOST_COLUMNS)
      throw new InputError(
        `${where}: cells in row ${row + 1}, column ${column + 1}; expected a table of at most ${MOST_ROWS} rows and ${MOST_COLUMNS} columns`,
        { file },
      );
    while (rows.length <= row) rows.push([]);
    const entries = rows[row]!;
    while (entries.length <= column) entries.push('');
    entries[column] = text.replace(/[\t\r\n]+/g, ' ');
  }
  return rows;
}

class Workbook {
  readonly sheets: Part[];
  readonly #parts: Map<string, Uint8Array>;
  readonly #file: string;

  constructor(bytes: Uint8Array, file: string) {
    this.#file = file;
    const parts = unpack(bytes, file, (name) => PARTS.test(name));
    this.#parts = new Map([...parts].map(([name, part]) => [name.replace(/^\//, '').toLowerCase(), part]));
    const workbook = this.#xml('xl/workbook.xml');
    const relations = this.#xml('xl/_rels/workbook.xml.rels');
    this.sheets = workbook && relations ? sheetsOf(workbook, relations, file) : [];
    if (this.sheets.length === 0)
      throw new InputError(`${file}: an archive without sheets; expected an .xlsx workbook`, { file });
  }

  #xml(path: string): string | null {
    const part = this.#parts.get(path.toLowerCase());
    return part ? xmlText(part) : null;
  }

  cells({ name, path }: Part, notes: string[]): Cell[] {
    const xml = this.#xml(path);
    if (xml === null) return [];
    const texts = sharedTexts(this.#xml('xl/sharedStrings.xml') ?? '<sst/>', this.#file);
    const formats: CellFormat[] = readFormats(this.#xml('xl/styles.xml') ?? '<styleSheet/>', this.#file);
    return readSheet(xml, {
      texts,
      formats,
      notes,
      where: `${this.#file}, sheet "${name}"`,
      file: this.#file,
    });
  }
}

/** The sheet that is asked for, else the first one that holds anything. */
function chosen(
  workbook: Workbook,
  wanted: string | undefined,
  file: string,
): { part: Part; cells: Cell[]; notes: string[] } {
  const named =
    wanted === undefined ? workbook.sheets : workbook.sheets.filter(({ name }) => name === wanted);
  if (named.length === 0)
    throw new InputError(
      `${file}: no sheet "${wanted}"; there are ${workbook.sheets.map(({ name }) => `"${name}"`).join(', ')}`,
      { file },
    );
  for (const part of named) {
    const notes: string[] = [];
    const cells = workbook.cells(part, notes);
    if (cells.some(({ text }) => text.trim() !== '')) return { part, cells, notes };
  }
  throw new InputError(`${file}: no sheet with entries; expected a table`, { file });
}

/**
 * A sheet of a workbook as text for the readers of tables: the one named, else the first with entries. A cell reads as it
 * shows: formulas by the value stored with them, times and dates by their format; a merged range has its entry in every
 * cell.
 *
 * Throws    InputError for a damaged file, one that unpacks to over 64 MB, a sheet that is not there or is too large
 */
export function readSpreadsheet(bytes: Uint8Array, file: string, sheet?: string): SheetText {
  const workbook = new Workbook(bytes, file);
  const { part, cells, notes } = chosen(workbook, sheet, file);
  const names = workbook.sheets.map(({ name }) => name);
  if (names.length > 1 && sheet === undefined)
    notes.unshift(`Sheet "${part.name}" was read, the first with entries of ${names.length}.`);
  const rows = rowsOf(cells, `${file}, sheet "${part.name}"`, file);
  return { sheets: names, sheet: part.name, text: tsvFormatRows(rows), notes };
}

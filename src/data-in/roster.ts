import { InputError } from '../base/inputError.ts';
import type { Sport } from '../base/units.ts';
import type { StepTest } from '../physiology/stepTest.ts';
import { COLUMN_KINDS } from './columnKinds.ts';
import { guessesInWords, namedByUnit } from './fromText.ts';
import { readHeading, unitBehind } from './headings.ts';
import type { Placed } from './marks.ts';
import type { Meaning } from './quantities.ts';
import { type RosterColumn, rosterColumn } from './rosterHeadings.ts';
import { readStepTest, type StepTestOptions } from './stages.ts';

/** One test of a table of many, its stages laid out as a table of one test. */
export interface RosterTest {
  /** The entries of the columns that tell tests apart, joined by spaces. */
  id: string;
  /** As the table says it; '' when it does not. */
  sport: string;
  grid: Placed;
  /** 1-based line of its first row. */
  line: number;
  /** What keeps its rows from being read at all. */
  fault: string | null;
}

type Cell = Extract<RosterColumn, { kind: 'cell' }>;

const SPORT_WORDS: [Sport, RegExp][] = [
  ['cycling', /^(cycl|bik|bicycle)/i],
  ['running', /^(run|treadmill)/i],
  ['rowing', /^row/i],
];

const isBlank = (text: string | undefined) => text === undefined || text.trim() === '';
const meaningOf = (text: string): Meaning | undefined => readHeading(text)?.meaning;
const of = <K extends RosterColumn['kind']>(columns: readonly RosterColumn[], kind: K) =>
  columns.filter((column): column is Extract<RosterColumn, { kind: K }> => column.kind === kind);

/**
 * Reads the rows of a table of many tests one after the other and gives each test when it is complete, so that a table
 * of any length takes the room of one test. The rows of a test in long form (a row for each stage) stand together; in
 * wide form a row is a test, its headings name the stage by number ('power 1', 'lactate 1') or by intensity ('lactate
 * 120 W').
 *
 * Throws    InputError for headings that do not tell tests apart or hold no lactate
 */
export class Roster {
  readonly #columns: readonly RosterColumn[];
  readonly #names: readonly RosterColumn[];
  readonly #wide: WideLayout | null;
  readonly #headingLine: number;
  /** What was decided about the headings, in sentences. */
  readonly #notes: readonly string[];
  #last: string[] = [];
  #open: RosterTest | null = null;

  constructor(headings: readonly string[], headingLine = 1, file?: string) {
    const known = withGuesses(headings);
    this.#columns = known.headings.map(rosterColumn);
    this.#notes = known.notes;
    this.#headingLine = headingLine;
    this.#names = of(this.#columns, 'name');
    const where = `${file ? `${file}, ` : ''}line ${headingLine}`;
    const place = { file, line: headingLine };
    if (this.#names.length === 0)
      throw new InputError(
        `${where}: no column tells the tests apart; expected a heading such as id, athlete or date`,
        place,
      );
    const long = of(this.#columns, 'other').some(({ text }) => meaningOf(text) === 'lactate');
    const lactates = of(this.#columns, 'cell').filter(({ meaning }) => meaning === 'lactate');
    if (!long && lactates.length === 0)
      throw new InputError(
        `${where}: no column of lactate; expected lactate (mmol/L) with a row for each stage, or lactate 1, lactate 2 and so on with a row for each test`,
        place,
      );
    this.#wide = long ? null : wideLayout(this.#columns);
  }

  /** Whether each row is a test. */
  get isWide(): boolean {
    return this.#wide !== null;
  }

  /** The test that is complete now, if any. */
  add(entries: readonly string[], line: number): RosterTest | null {
    const names = this.#names.map(({ index }, i) => entries[index]?.trim() || (this.#last[i] ?? ''));
    const id = names.filter((name) => name !== '').join(' ');
    const sport = entries[of(this.#columns, 'sport')[0]?.index ?? -1]?.trim() ?? '';
    const fault = this.#faultOf(entries, line);
    if (this.#wide) return { id, sport, grid: this.#wideGrid(entries, line), line, fault };
    this.#last = names;
    const before = this.#open;
    if (before && before.id === id) {
      before.grid.rows.push(this.#longRow(entries));
      before.grid.places!.push({ line, columns: [] });
      before.sport ||= sport;
      before.fault ??= fault;
      return null;
    }
    const grid = this.#grid(this.#longHeadings(), [this.#longRow(entries)], [line]);
    this.#open = { id, sport, grid, line, fault };
    return before;
  }

  /** The last test. */
  end(): RosterTest | null {
    const last = this.#open;
    this.#open = null;
    return last;
  }

  #faultOf(entries: readonly string[], line: number): string | null {
    const filled = entries.findLastIndex((entry) => !isBlank(entry)) + 1;
    const width = this.#columns.length;
    return filled > width ? `line ${line}: ${filled} entries, but there are ${width} headings` : null;
  }

  #grid(headings: string[], rows: string[][], lines: number[]): Placed {
    const headingPlace = { line: this.#headingLine, columns: [] };
    const places = lines.map((line) => ({ line, columns: [] }));
    return { headings, rows, headingPlace, places, notes: [...this.#notes] };
  }

  #longColumns(): RosterColumn[] {
    return this.#columns.filter(({ kind }) => kind !== 'name' && kind !== 'sport');
  }

  readonly #longHeadings = () => this.#longColumns().map(({ text }) => text);
  readonly #longRow = (entries: readonly string[]) =>
    this.#longColumns().map(({ index }) => entries[index] ?? '');

  #wideGrid(entries: readonly string[], line: number): Placed {
    const { headings, stages, rest, constants } = this.#wide!;
    const same = constants.map(({ index }) => entries[index] ?? '');
    const stageRows = stages.flatMap(({ fixed, cells }) => {
      const texts = cells.map((cell) => (cell ? (entries[cell.index] ?? '') : ''));
      if (texts.every(isBlank)) return [];
      const intensity = fixed === null ? [] : [fixed];
      const fields = [...headings.slice(0, 1 + intensity.length), ...cells.map((cell) => cell?.text ?? '')];
      return [{ row: ['', ...intensity, ...texts, ...same], fields }];
    });
    const only = (text: string, label: string) =>
      headings.map((_, i) => (i === 0 ? label : i === this.#wide!.lactate ? text : ''));
    const atRest = rest === null || isBlank(entries[rest.index]) ? [] : [rest];
    const restRows = atRest.map(({ index, text }) => ({
      row: only(entries[index]!, 'rest'),
      fields: only(text, ''),
    }));
    const all = [...restRows, ...stageRows];
    return {
      headings,
      rows: all.map(({ row }) => row),
      headingPlace: { line: this.#headingLine, columns: [] },
      places: all.map(({ fields }) => ({ line, columns: [], fields })),
    };
  }
}

/** Headings that nobody knows are taken for what their units tell; in wide form every column has its own stage. */
function withGuesses(headings: readonly string[]): { headings: readonly string[]; notes: string[] } {
  if (headings.map(rosterColumn).some(({ kind }) => kind === 'cell')) return { headings, notes: [] };
  const { headings: named, guessed } = namedByUnit(
    { headings: [...headings], rows: [] },
    COLUMN_KINDS.stages,
  );
  return { headings: named, notes: guessesInWords(headings, named, guessed) };
}

/** How the cells of a row become the stages of a test. */
interface WideLayout {
  headings: string[];
  /** Place of lactate among the headings. */
  lactate: number;
  /** `fixed` is the intensity that the headings name; cells in the order of the headings. */
  stages: { fixed: string | null; cells: (Cell | undefined)[] }[];
  rest: RosterColumn | null;
  /** Columns that hold for every stage. */
  constants: RosterColumn[];
}

function wideLayout(columns: readonly RosterColumn[]): WideLayout {
  const cells = of(columns, 'cell');
  const keys = [...new Set(cells.map(({ at, unit }) => `${at} ${unit}`))];
  const meanings = [...new Set(cells.map(({ meaning }) => meaning))];
  const unit = cells.find((cell) => cell.unit !== '')?.unit;
  const constants = of(columns, 'other').filter(({ text }) =>
    ['mass', 'duration'].includes(meaningOf(text) ?? ''),
  );
  const fixed = unit === undefined ? [] : [`intensity (${unit})`];
  const measured = meanings.map(
    (meaning) => cells.find((cell) => cell.meaning === meaning && cell.of !== '')?.of ?? meaning,
  );
  return {
    headings: ['stage', ...fixed, ...measured, ...constants.map(({ text }) => text)],
    lactate: 1 + fixed.length + meanings.indexOf('lactate'),
    stages: keys.map((key) => {
      const [at, ownUnit] = key.split(' ');
      const ofStage = cells.filter((cell) => `${cell.at} ${cell.unit}` === key);
      const inOrder = meanings.map((meaning) => ofStage.find((cell) => cell.meaning === meaning));
      return { fixed: unit === undefined ? null : `${at}${ownUnit ? ` ${ownUnit}` : ''}`, cells: inOrder };
    }),
    rest: of(columns, 'rest')[0] ?? null,
    constants,
  };
}

function sportIn({ sport, line }: RosterTest, file: string | undefined): Sport | undefined {
  if (sport === '') return undefined;
  const found = SPORT_WORDS.find(([, words]) => words.test(sport))?.[0];
  if (found) return found;
  throw new InputError(
    `${file ? `${file}, ` : ''}line ${line}: "${sport}" is no sport known here; expected cycling, running or rowing`,
    { file, line },
  );
}

/**
 * A test of a roster as any other; what the options say goes before what the table says.
 *
 * Throws    InputError as `readStepTest` does
 */
export function readRosterTest(test: RosterTest, options: StepTestOptions = {}): StepTest {
  const { fault, line, grid } = test;
  if (fault !== null)
    throw new InputError(`${options.file ? `${options.file}, ` : ''}${fault}`, { line, file: options.file });
  return readStepTest(grid, { ...options, sport: options.sport ?? sportIn(test, options.file) });
}

/** Words with the unit of what is needed of a stage behind them; an entry such as 100 W is no heading. */
const isTold = (entry: string) =>
  /^\s*\p{L}/u.test(entry) &&
  (['power', 'speed', 'pace', 'lactate'] as const).some((meaning) => unitBehind(entry, meaning));

/** How many headings of a table of many tests a row holds. */
export const countRosterHeadings = (entries: string[]): number =>
  entries.filter((entry, index) => {
    const column = rosterColumn(entry, index);
    return column.kind !== 'other' || meaningOf(entry) !== undefined || isTold(entry);
  }).length;

/** The headings that a table of many tests is expected to have, in the words of messages. */
export const ROSTER_HEADINGS = 'headings such as id, power (W), lactate (mmol/L), or id, power 1, lactate 1';

/** A table of text as typed: headings and rows; every row has as many entries as there are headings. */
export interface GridValue {
  headings: string[];
  rows: string[][];
  /** Only of a table on the page that somebody brought. */
  source?: TableSource;
}

/** Whether nothing but headings and labels was entered: a row is begun with its second entry. */
export const isEmpty = ({ rows }: GridValue): boolean =>
  rows.every((row) => row.filter((entry) => entry.trim() !== '').length < 2);

/** A remark about one entry of a grid; `row` -1 is the heading row, `column` -1 the whole row. */
export interface GridMark {
  row: number;
  column: number;
  tone: 'problem' | 'note';
  text: string;
}

/** A text that somebody brought. */
export interface BroughtText {
  text: string;
  /** Of the file. */
  name?: string | undefined;
  /** What was decided on the way to the text. */
  notes?: readonly string[];
}

/** The line that somebody says the headings of a text are in, 1-based, or that it has none. */
export type HeadingsSaid = number | 'none';

/** Where a table on the page came from. */
export interface TableSource {
  brought: BroughtText;
  /** Where its headings are. */
  headingsAt: HeadingsSaid;
  /** The headings as they were there. */
  headings: string[];
  /** Which columns are taken for something only because of their unit. */
  guessed: boolean[];
  /** How it was read, in sentences. */
  about: string[];
}

const isTexts = (value: unknown): value is string[] =>
  Array.isArray(value) && value.every((item) => typeof item === 'string');

/** Whether data of unknown origin is a table; where it came from is not looked at. */
export function isGridValue(value: unknown): value is GridValue {
  const { headings, rows } = (value ?? {}) as Partial<GridValue>;
  return isTexts(headings) && Array.isArray(rows) && rows.every(isTexts);
}

/** Where a table came from, if it says so in a form that can be relied on: it may be from a file of somebody else. */
export function sourceOf({ source }: GridValue): TableSource | null {
  const { brought, headingsAt, headings, guessed, about } = source ?? {};
  const isText = typeof brought?.text === 'string' && ['string', 'undefined'].includes(typeof brought.name);
  const isPlace = headingsAt === 'none' || Number.isSafeInteger(headingsAt);
  const areLists = isTexts(headings) && isTexts(about) && Array.isArray(guessed);
  return isText && isPlace && areLists && isTexts(brought.notes ?? []) ? source! : null;
}

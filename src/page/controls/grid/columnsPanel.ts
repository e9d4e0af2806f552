import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import type { GridMark, GridValue } from '../../../base/grid.ts';
import type { ColumnKind, ColumnTaken, Correction } from '../../../toolkit/files.ts';
import { sameValue } from '../../../workbook/sameValue.ts';
import { plain } from '../../results/inspect.ts';
import type { FilesModule, HourGrid } from './gridElement.ts';
import { messageOf } from './messageOf.ts';

/** What keeps the columns from being read, if anything does. */
export const columnProblem = (marks: readonly GridMark[]) =>
  marks.find(({ tone, row }) => tone === 'problem' && row === -1);

/** Whether somebody should look at the columns: one was guessed, one is not used, or they cannot be read. */
export function columnsAreDoubtful(element: HourGrid): boolean {
  const { files, source, control, grid, marks } = element;
  if (!files || !source || !control.rows) return false;
  return (
    columnProblem(marks) !== undefined ||
    source.guessed.includes(true) ||
    files.columnsIn(grid, control.rows).some(({ use }) => use === null)
  );
}

/** What a column is called: by its heading where it came from, if that is known. */
const nameOf = ({ source, grid }: HourGrid, column: number) =>
  plain(source?.headings[column] ?? grid.headings[column] ?? '').trim() || `column ${column + 1}`;

/**
 * Takes a column for what was chosen. Keys that walk through a list choose one thing after the other: each goes from the
 * table before, so that what was only passed leaves no trace, and all of it is one step.
 */
function correct(element: HourGrid, files: FilesModule, { column, use }: Correction): void {
  const { correcting } = element;
  const walking =
    correcting?.column === column && sameValue(correcting.made, element.grid) ? correcting : null;
  const before = walking?.before ?? element.step;
  const { grid, source } = before;
  const value = files.corrected(grid, element.control.rows!, { column, use, sources: source?.headings });
  const guessed = source?.guessed.map((guess, i) => guess && i !== column) ?? [];
  const step = { grid: value, source: source && { ...source, guessed } };
  const said = correctionInWords(element, grid, value, column);
  if (walking) element.amend(step, said);
  else element.change(value, said, step.source);
  element.correcting = { column, before, made: value };
}

function correctionInWords(element: HourGrid, before: GridValue, after: GridValue, column: number): string {
  const given = after.headings[column]!;
  const isUsed = element.files!.columnsIn(after, element.control.rows!)[column]!.use !== null;
  const released = after.headings.flatMap((heading, i) =>
    i !== column && heading !== before.headings[i] ? [nameOf(element, i)] : [],
  );
  return [
    `${nameOf(element, column)} is ${isUsed ? `taken for ${given}` : 'not used'}`,
    ...released.map((name) => `${name} is not used any longer`),
  ].join('. ');
}

const NOT_USED = 'not used';

interface List {
  label: string;
  options: readonly { value: string; text: string }[];
  chosen: string;
  /** What a choice says of which column. */
  says(value: string): Correction;
}

/** A list of choices; what is chosen is set on the options, so that it holds also when they change. */
function choices(element: HourGrid, files: FilesModule, { label, options, chosen, says }: List) {
  const choose = (event: Event) => correct(element, files, says((event.target as HTMLSelectElement).value));
  const leave = () => {
    element.correcting = null;
  };
  return html`<select aria-label=${label} @change=${choose} @blur=${leave}>${options.map(
    ({ value, text }) => html`<option value=${value} .selected=${live(value === chosen)}>${text}</option>`,
  )}</select>`;
}

function wordChoice(element: HourGrid, files: FilesModule, kind: ColumnKind | undefined, column: number) {
  const words = [NOT_USED, ...files.kindsFor(element.control.rows!).map(({ word }) => word)];
  return choices(element, files, {
    label: `${nameOf(element, column)}: taken for`,
    options: words.map((word) => ({ value: word, text: word })),
    chosen: kind?.word ?? NOT_USED,
    says: (word) => ({ column, use: word === NOT_USED ? null : { word } }),
  });
}

function unitChoice(
  element: HourGrid,
  files: FilesModule,
  { word, headings }: ColumnKind,
  column: number,
  chosen: string,
) {
  const units = Object.keys(headings);
  if (units.length < 2) return html`<span class="unit">${units[0]}</span>`;
  const offered = units.filter((unit) => unit !== '' || chosen === '');
  return choices(element, files, {
    label: `${nameOf(element, column)}: unit`,
    options: offered.map((unit) => ({ value: unit, text: unit || 'not said' })),
    chosen,
    says: (unit) => ({ column, use: { word, unit } }),
  });
}

function columnRow(element: HourGrid, files: FilesModule, { use, examples }: ColumnTaken, column: number) {
  const kind = files.kindsFor(element.control.rows!).find(({ word }) => word === use?.word);
  const isGuessed = element.source?.guessed[column] ?? false;
  return html`<li class=${kind ? '' : 'unused'}>
    <span class="source-name">${nameOf(element, column)}${
      isGuessed ? html` <span class="guessed">guessed by its unit</span>` : nothing
    }</span>
    <span class="examples">${examples.map(plain).join(', ') || 'empty'}</span>
    ${wordChoice(element, files, kind, column)}
    ${kind ? unitChoice(element, files, kind, column, use!.unit) : nothing}
  </li>`;
}

/** What is read of the table as it stands; nothing while it cannot be. */
function account(element: HourGrid, files: FilesModule): string {
  try {
    return files.accountOf(element.grid, element.control.rows!);
  } catch (error) {
    // What is wrong with the table stands beneath it already.
    return (error as Error).name === 'InputError' ? '' : messageOf(error);
  }
}

/**
 * What was read of a table that somebody brought, and what each of its columns is taken for, to be corrected. A table that
 * cannot be read for its headings offers the same, wherever it came from.
 */
export function columnsPanel(element: HourGrid, marks: readonly GridMark[]) {
  const { files, source, control, columnsOpen } = element;
  const problem = columnProblem(marks);
  if (!control.rows || !(source || problem)) return nothing;
  const toggled = (event: Event) => {
    element.columnsOpen = (event.target as HTMLDetailsElement).open;
    if (element.columnsOpen && !files) void element.loadFiles();
  };
  return html`<div class="brought-table">
    ${source && files ? html`<p class="hint">${[...source.about, account(element, files)].map(plain).join(' ')}</p>` : nothing}
    <details .open=${live(columnsOpen)} @toggle=${toggled}>
      <summary>Columns: what each is taken for</summary>
      ${columnsOpen && files ? columnList(element, files) : nothing}
    </details>
  </div>`;
}

const columnList = (element: HourGrid, files: FilesModule) => html`
  <p class="hint">Say what a column holds, and the table is read again at once. Undo takes it back.</p>
  <ul class="columns">${files
    .columnsIn(element.grid, element.control.rows!)
    .map((taken, column) => columnRow(element, files, taken, column))}</ul>`;

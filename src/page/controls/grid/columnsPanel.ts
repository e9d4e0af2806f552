import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import type { GridMark, GridValue } from '../../../base/grid.ts';
import type { ColumnKind, ColumnTaken, Correction } from '../../../toolkit/files.ts';
import { plain } from '../../results/inspect.ts';
import type { FilesModule, HourGrid } from './gridElement.ts';
import { headingsChoice } from './headingsChoice.ts';
import { messageOf } from './messageOf.ts';
import { testChoice } from './testChoice.ts';
import { choices, walk } from './walking.ts';

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

/** Takes a column for what was chosen. */
function correct(element: HourGrid, files: FilesModule, correction: Correction): void {
  const { column } = correction;
  walk(element, column, ({ grid, source }) => {
    const value = files.corrected(grid, element.control.rows!, { ...correction, sources: source?.headings });
    const guessed = source?.guessed.map((guess, i) => guess && i !== column) ?? [];
    const said = correctionInWords(element, grid, value, column);
    return { step: { grid: value, source: source && { ...source, guessed } }, said };
  });
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

function wordChoice(element: HourGrid, files: FilesModule, kind: ColumnKind | undefined, column: number) {
  const words = [NOT_USED, ...files.kindsFor(element.control.rows!).map(({ word }) => word)];
  return choices(element, {
    label: `${nameOf(element, column)}: taken for`,
    options: words.map((word) => ({ value: word, text: word })),
    chosen: kind?.word ?? NOT_USED,
    choose: (word) => correct(element, files, { column, use: word === NOT_USED ? null : { word } }),
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
  return choices(element, {
    label: `${nameOf(element, column)}: unit`,
    options: offered.map((unit) => ({ value: unit, text: unit || 'not said' })),
    chosen,
    choose: (unit) => correct(element, files, { column, use: { word, unit } }),
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

function report(element: HourGrid) {
  const { files, source, refused } = element;
  if (!source || refused) return nothing;
  const read = files ? [account(element, files)] : [];
  return html`<p class="hint">${[...source.about, ...read].map(plain).join(' ')}</p>`;
}

/**
 * What was read of a table that somebody brought, where its headings are and what each of its columns is taken for, to be
 * corrected. A table that cannot be read for its headings offers the same, wherever it came from; a text that was refused
 * offers its lines.
 */
export function columnsPanel(element: HourGrid, marks: readonly GridMark[]) {
  const { files, source, refused, control, columnsOpen } = element;
  if (!control.rows || !(source || refused || columnProblem(marks))) return nothing;
  const toggled = (event: Event) => {
    element.columnsOpen = (event.target as HTMLDetailsElement).open;
    if (element.columnsOpen && !files) void element.loadFiles();
  };
  return html`<div class="brought-table">
    ${report(element)}
    ${files && !refused && columnProblem(marks) ? testChoice(element, files) : nothing}
    <details .open=${live(columnsOpen)} @toggle=${toggled}>
      <summary>Columns: where their headings are and what each is taken for</summary>
      ${columnsOpen && files ? html`${headingsChoice(element, files)} ${refused ? nothing : columnList(element, files)}` : nothing}
    </details>
  </div>`;
}

const columnList = (element: HourGrid, files: FilesModule) => html`
  <p class="hint">Say what a column holds, and the table is read again at once. Undo takes it back.</p>
  <ul class="columns">${files
    .columnsIn(element.grid, element.control.rows!)
    .map((taken, column) => columnRow(element, files, taken, column))}</ul>`;

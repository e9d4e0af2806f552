import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import type { GridMark } from '../../../base/grid.ts';
import type { ColumnKind, ColumnTaken, Correction } from '../../../toolkit/files.ts';
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

function correct(element: HourGrid, files: FilesModule, correction: Correction): void {
  const { grid, source, control } = element;
  const { column } = correction;
  const value = files.corrected(grid, control.rows!, { ...correction, sources: source?.headings });
  const guessed = source?.guessed.map((guess, i) => guess && i !== column) ?? [];
  const released = value.headings.flatMap((heading, i) =>
    i !== column && heading !== grid.headings[i] ? [nameOf(element, i)] : [],
  );
  const said = [
    `${nameOf(element, column)} is ${correction.use ? `taken for ${value.headings[column]}` : 'not used'}`,
    ...released.map((name) => `${name} is not used any longer`),
  ];
  element.change(value, said.join('. '), source && { ...source, guessed });
}

const NOT_USED = 'not used';
const valueIn = (event: Event) => (event.target as HTMLSelectElement).value;

/** A list of choices; what is chosen is set on the options, so that it holds also when they change. */
const choices = (
  label: string,
  options: readonly { value: string; text: string }[],
  chosen: string,
  choose: (value: string) => void,
) =>
  html`<select aria-label=${label} @change=${(event: Event) => choose(valueIn(event))}>${options.map(
    ({ value, text }) => html`<option value=${value} .selected=${live(value === chosen)}>${text}</option>`,
  )}</select>`;

function unitChoice(
  element: HourGrid,
  files: FilesModule,
  kind: ColumnKind,
  taken: ColumnTaken,
  column: number,
) {
  const units = Object.keys(kind.headings);
  if (units.length < 2) return html`<span class="unit">${units[0]}</span>`;
  const open = taken.use!.unit === '';
  const offered = units.filter((unit) => unit !== '' || open);
  return choices(
    `${nameOf(element, column)}: unit`,
    offered.map((unit) => ({ value: unit, text: unit || 'not said' })),
    taken.use!.unit,
    (unit) => correct(element, files, { column, use: { word: kind.word, unit } }),
  );
}

function columnRow(element: HourGrid, files: FilesModule, taken: ColumnTaken, column: number) {
  const kinds = files.kindsFor(element.control.rows!);
  const kind = kinds.find(({ word }) => word === taken.use?.word);
  const name = nameOf(element, column);
  const words = [NOT_USED, ...kinds.map(({ word }) => word)];
  const choose = (word: string) =>
    correct(element, files, { column, use: word === NOT_USED ? null : { word } });
  return html`<li class=${kind ? '' : 'unused'}>
    <span class="source-name">${name}${
      element.source?.guessed[column] ? html` <span class="guessed">guessed by its unit</span>` : nothing
    }</span>
    <span class="examples">${taken.examples.map(plain).join(', ') || 'empty'}</span>
    ${choices(
      `${name}: taken for`,
      words.map((word) => ({ value: word, text: word })),
      kind?.word ?? NOT_USED,
      choose,
    )}
    ${kind ? unitChoice(element, files, kind, taken, column) : nothing}
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

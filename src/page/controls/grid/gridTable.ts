import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import type { GridMark, GridValue } from '../../../base/grid.ts';
import { plain } from '../../results/inspect.ts';
import type { Spot } from './edits.ts';
import type { HourGrid } from './gridElement.ts';
import { type Shown, shownRows } from './shownRows.ts';

const same = (a: Spot, b: Spot) => a.row === b.row && a.column === b.column;

/** Id of the remark beneath a table that its marked entry refers to. */
export const markId = (element: HourGrid, index: number): string => `${element.key}-mark-${index}`;

/** Numbers stand on the right, as in every table here. */
const NUMBER_LIKE = /^[<>]?[+−-]?\d/;

function holdsNumbers({ rows }: GridValue, column: number): boolean {
  const entries = rows.map((row) => row[column] ?? '').filter((text) => text !== '');
  return entries.length > 0 && entries.every((text) => NUMBER_LIKE.test(text));
}

function editor(element: HourGrid, spot: Spot) {
  const suggestions = spot.row === -1 ? `${element.key}-headings` : nothing;
  return html`<input class="entry-editor" aria-label=${spotName(element, spot)} list=${suggestions} autocomplete="off"
    spellcheck="false" inputmode=${spot.row === -1 ? 'text' : nothing} .value=${live(element.draft ?? '')}
    @input=${(event: Event) => {
      element.draft = (event.target as HTMLInputElement).value;
    }}
    @blur=${() => element.commit()}>`;
}

/** "Row 3, lactate": how an entry is called in remarks and to screen readers. */
export function spotName(element: HourGrid, { row, column }: Spot): string {
  const heading = plain(element.grid.headings[column] ?? '') || `column ${column + 1}`;
  if (column === -1) return row === -1 ? 'Table' : `Row ${row + 1}`;
  return row === -1 ? `Heading ${heading}` : `Row ${row + 1}, ${heading}`;
}

/** Pressing an entry goes to it; pressing the one that had the focus already edits it. */
function pressing(element: HourGrid, spot: Spot) {
  return {
    down: (event: MouseEvent) => {
      element.pressedAgain = event.currentTarget === document.activeElement;
    },
    up: (event: MouseEvent) => {
      if (event.target instanceof HTMLInputElement) return;
      if (element.pressedAgain) element.edit();
      else element.goTo(spot);
      element.pressedAgain = false;
    },
  };
}

/** A mark and the id of its remark. */
interface Marked {
  mark: GridMark;
  id: string;
}

function entry(element: HourGrid, text: string, spot: Spot, marks: readonly Marked[]) {
  const active = same(element.active, spot);
  const editing = active && element.draft !== null;
  const about = marks.filter(({ mark }) => same(mark, spot));
  const tone = about.some(({ mark }) => mark.tone === 'problem') ? 'problem' : about.length > 0 ? 'note' : '';
  const content = html`<span class="entry-text">${plain(text)}</span>${editing ? editor(element, spot) : nothing}`;
  const numeric = spot.row >= 0 ? NUMBER_LIKE.test(text) : holdsNumbers(element.grid, spot.column);
  const side = numeric ? 'right' : '';
  const press = pressing(element, spot);
  const invalid = tone === 'problem' ? 'true' : nothing;
  const described = about.length > 0 ? about.map(({ id }) => id).join(' ') : nothing;
  return spot.row === -1
    ? html`<th role="columnheader" scope="col" class="${tone} ${side}" tabindex=${active ? 0 : -1} ?data-active=${active}
        aria-invalid=${invalid} aria-describedby=${described} @mousedown=${press.down} @click=${press.up}>${content}</th>`
    : html`<td role="gridcell" class="${tone} ${side}" tabindex=${active ? 0 : -1} ?data-active=${active}
        aria-invalid=${invalid} aria-describedby=${described} @mousedown=${press.down} @click=${press.up}>${content}</td>`;
}

function row(element: HourGrid, texts: readonly string[], at: number, marks: readonly Marked[]) {
  const here = marks.filter(({ mark }) => mark.row === at);
  const tone = here.find(({ mark }) => mark.column === -1)?.mark.tone ?? '';
  return html`<tr role="row" class=${tone} aria-rowindex=${at + 2}>
    <th role="rowheader" scope="row" class="row-number">${
      at === -1 ? html`<span class="hidden-text">Headings</span>` : at + 1
    }</th>
    ${texts.map((text, column) => entry(element, text, { row: at, column }, here))}
  </tr>`;
}

/** Leads to the rows before and after those that are drawn. */
function otherRows(element: HourGrid, { from, until }: Shown) {
  const { length } = element.grid.rows;
  const go = (row: number) => () => element.goTo({ row, column: element.active.column });
  return html`<div class="tools" role="group" aria-label="Rows that are shown">
    <span class="hint">Rows ${from + 1} to ${until} of ${length} are shown.</span>
    <button type="button" ?disabled=${from === 0} @click=${go(from - 1)}>Earlier rows</button>
    <button type="button" ?disabled=${until === length} @click=${go(until)}>Later rows</button>
  </div>`;
}

/** The table itself, in a box that scrolls sideways when it must. */
export function gridTable(element: HourGrid, marks: readonly GridMark[]) {
  const { headings, rows } = element.grid;
  const offered = element.control.suggestions.filter((heading) => !headings.includes(heading));
  const shown = shownRows(rows.length, headings.length, element.active.row);
  const marked = marks
    .map((mark, i): Marked => ({ mark, id: markId(element, i) }))
    .filter(({ mark }) => mark.row < 0 || (mark.row >= shown.from && mark.row < shown.until));
  return html`<div class="table-scroll">
    <table role="grid" aria-label=${plain(element.control.label)} aria-describedby=${`${element.key}-keys`}
      aria-rowcount=${rows.length + 1} @keydown=${element.onKey} @paste=${element.onPaste} @copy=${element.onCopy}>
      <thead>${row(element, headings, -1, marked)}</thead>
      <tbody>${rows
        .slice(shown.from, shown.until)
        .map((texts, i) => row(element, texts, shown.from + i, marked))}</tbody>
    </table>
    <datalist id=${`${element.key}-headings`}>${offered.map((h) => html`<option value=${h}></option>`)}</datalist>
  </div>
  <p class="editor-hint" aria-hidden="true">Escape, then Tab, leaves the table</p>
  ${shown.until - shown.from < rows.length ? otherRows(element, shown) : nothing}`;
}

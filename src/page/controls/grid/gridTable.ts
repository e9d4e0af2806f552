import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import type { GridMark, GridValue } from '../../../base/grid.ts';
import { plain } from '../../results/inspect.ts';
import type { Spot } from './edits.ts';
import type { HourGrid } from './gridElement.ts';

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

function entry(element: HourGrid, text: string, spot: Spot, marks: readonly GridMark[]) {
  const active = same(element.active, spot);
  const editing = active && element.draft !== null;
  const about = marks.flatMap((mark, i) => (same(mark, spot) ? [{ mark, id: markId(element, i) }] : []));
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

function row(element: HourGrid, texts: readonly string[], at: number, marks: readonly GridMark[]) {
  const tone = marks.find((mark) => mark.row === at && mark.column === -1)?.tone ?? '';
  return html`<tr role="row" class=${tone}>
    <th role="rowheader" scope="row" class="row-number">${
      at === -1 ? html`<span class="hidden-text">Headings</span>` : at + 1
    }</th>
    ${texts.map((text, column) => entry(element, text, { row: at, column }, marks))}
  </tr>`;
}

/** The table itself, in a box that scrolls sideways when it must. */
export function gridTable(element: HourGrid, marks: readonly GridMark[]) {
  const { headings, rows } = element.grid;
  const offered = element.control.suggestions.filter((heading) => !headings.includes(heading));
  return html`<div class="table-scroll">
    <table role="grid" aria-label=${plain(element.control.label)} aria-describedby=${`${element.key}-keys`}
      @keydown=${element.onKey} @paste=${element.onPaste} @copy=${element.onCopy}>
      <thead>${row(element, headings, -1, marks)}</thead>
      <tbody>${rows.map((texts, at) => row(element, texts, at, marks))}</tbody>
    </table>
    <datalist id=${`${element.key}-headings`}>${offered.map((h) => html`<option value=${h}></option>`)}</datalist>
  </div>
  <p class="editor-hint" aria-hidden="true">Escape, then Tab, leaves the table</p>`;
}

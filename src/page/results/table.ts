import { html, nothing } from 'lit';
import { unbroken } from '../../base/format.ts';
import type { Column, TableRow, TableView } from '../../view/view.ts';
import { plain } from './inspect.ts';

const LONG_ENTRY = 40;
const NUMBER_LIKE = /^[<>≤≥~≈±+−-]?\s*\d/;

/** Numbers stand on the right so that their digits line up; said by the column, or else seen from its entries. */
function alignment(column: Column, rows: readonly TableRow[]): '' | 'right' {
  if (column.align) return column.align === 'right' ? 'right' : '';
  const entries = rows.map((row) => row[column.key]).filter((entry) => entry != null && entry !== '');
  return entries.length > 0 && entries.every((entry) => NUMBER_LIKE.test(plain(entry))) ? 'right' : '';
}

/** A column with sentences in it keeps some width and smaller letters. */
const isLong = (column: Column, rows: readonly TableRow[]): boolean =>
  rows.some((row) => (row[column.key] ?? '').length > LONG_ENTRY);

const heading = (column: Column, side: string) =>
  html`<th scope="col" class=${side}>${plain(column.heading)}${
    column.unit ? html` <span class="unit">${plain(column.unit)}</span>` : nothing
  }</th>`;

function row(view: TableView, sides: readonly string[], entries: TableRow) {
  const [first, ...others] = view.columns;
  if (first && others.length > 0 && others.every((column) => entries[column.key] === '')) {
    return html`<tr class=${entries.tone ?? ''}>
      <th scope="colgroup" colspan=${view.columns.length}>${plain(entries[first.key] ?? '')}</th>
    </tr>`;
  }
  const shown = (column: Column) => (entries[column.key] == null ? '–' : plain(entries[column.key]));
  return html`<tr class=${entries.tone ?? ''}>${view.columns.map((column, i) =>
    i === 0
      ? html`<th scope="row" class=${sides[i]!}>${shown(column)}</th>`
      : html`<td class=${sides[i]!}>${shown(column)}</td>`,
  )}</tr>`;
}

/** A table of text in a box of its own that scrolls sideways when it must; the page never does. */
export function tableView(view: TableView) {
  const sides = view.columns.map((column) =>
    isLong(column, view.rows) ? 'long' : alignment(column, view.rows),
  );
  return html`<div class="table-box">
    ${view.caption ? html`<div class="caption">${plain(view.caption)}</div>` : nothing}
    <div class="table-scroll" tabindex="0" role="group" aria-label=${plain(view.caption || 'Table')}>
      <table>
        <thead><tr>${view.columns.map((column, i) => heading(column, sides[i]!))}</tr></thead>
        <tbody>${view.rows.map((entries) => row(view, sides, entries))}</tbody>
      </table>
    </div>
    ${view.note ? html`<p class="footnote">${unbroken(plain(view.note))}</p>` : nothing}
  </div>`;
}

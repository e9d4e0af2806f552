import { html, nothing } from 'lit';
import type { GridMark } from '../../../base/grid.ts';
import { sameValue } from '../../../workbook/sameValue.ts';
import { plain } from '../../results/inspect.ts';
import { takeFile, takeText } from './bringing.ts';
import { columnsPanel } from './columnsPanel.ts';
import { withColumn, withoutColumn, withoutRow, withRow } from './edits.ts';
import type { HourGrid } from './gridElement.ts';
import { markId, spotName } from './gridTable.ts';

const tool = (label: string, act: () => void, able = true) =>
  html`<button type="button" ?disabled=${!able} @click=${act}>${label}</button>`;

function addRow(element: HourGrid): void {
  const end = element.grid.rows.length;
  element.change(withRow(element.grid, end), `Row ${end + 1} added`);
  element.goTo({ row: end, column: 0 });
}

function insertRow(element: HourGrid): void {
  const at = Math.max(0, element.active.row);
  element.change(withRow(element.grid, at), `Row ${at + 1} inserted`);
  element.goTo({ row: at, column: 0 });
}

function removeRow(element: HourGrid): void {
  element.change(withoutRow(element.grid, element.active.row), `Row ${element.active.row + 1} removed`);
}

function addColumn(element: HourGrid): void {
  const end = element.grid.headings.length;
  element.change(withColumn(element.grid, end, ''), 'Column added: type its heading');
  element.goTo({ row: -1, column: end });
  element.edit('');
}

function removeColumn(element: HourGrid): void {
  const { column } = element.active;
  const name = element.grid.headings[column] || `${column + 1}`;
  element.change(withoutColumn(element.grid, column), `Column ${name} removed`);
}

/** Back to the table that the cell's code makes; a step that Undo takes back. */
function startOver(element: HourGrid): void {
  element.change(element.control.value, 'The table is as the code makes it', null);
}

/** The table that the control offers, in place of this one; a step that Undo takes back. */
function offerTool(element: HourGrid) {
  const { offer } = element.control;
  if (!offer) return nothing;
  const take = () => element.change(offer.value, `Taken over: ${plain(offer.from)}`, null);
  return tool(`Take over ${plain(offer.from)}`, take, !sameValue(element.grid, offer.value));
}

function tableTools(element: HourGrid) {
  const { row, column } = element.active;
  const { headings, rows } = element.grid;
  const heading = plain(headings[column] ?? '') || String(column + 1);
  return html`<div class="tools" role="group" aria-label="Change the table">
    ${tool('Add row', () => addRow(element))}
    ${tool(row < 0 ? 'Insert row' : `Insert above row ${row + 1}`, () => insertRow(element), rows.length > 0)}
    ${tool(row < 0 ? 'Remove row' : `Remove row ${row + 1}`, () => removeRow(element), row >= 0 && rows.length > 0)}
    ${tool('Add column', () => addColumn(element))}
    ${tool(`Remove column ${heading}`, () => removeColumn(element), headings.length > 1)}
    ${tool('Undo', () => element.undo(), element.history.canUndo)}
    ${tool('Redo', () => element.redo(), element.history.canRedo)}
    ${tool('Start over', () => startOver(element), !sameValue(element.grid, element.control.value))}
  </div>`;
}

/** Leads to what is still to be said of a table: its test, its columns, where their headings are; false when it is nothing. */
async function showWhatIsAsked(element: HourGrid): Promise<boolean> {
  await element.updateComplete;
  const asked = element.columnsOpen ? '.brought-table summary' : '.brought-table .tests select';
  const found = element.querySelector<HTMLElement>(asked);
  found?.focus();
  return found !== null;
}

function fileTools(element: HourGrid) {
  const picker = () => element.querySelector<HTMLInputElement>('input[type="file"]')!;
  const picked = async () => {
    const isTaken = await takeFile(element, picker().files?.[0]);
    picker().value = '';
    if (isTaken || element.refused) await showWhatIsAsked(element);
  };
  return html`<div class="tools file-tools" role="group" aria-label="Bring in a table">
    ${tool('Open a file…', () => picker().click())}
    <button type="button" aria-expanded=${element.pasting} @click=${() => {
      element.pasting = !element.pasting;
    }}>Paste text…</button>
    ${offerTool(element)}
    <span class="hint">or drop it here: a table (CSV, XLSX)${element.control.recording ? ' or a recording (FIT, TCX, GPX)' : ''}. A table can be pasted, too</span>
    <input type="file" hidden tabindex="-1" aria-label="Table file" accept=".csv,.tsv,.txt,.xlsx,.fit,.tcx,.gpx,text/csv,text/tab-separated-values"
      @change=${picked}>
  </div>`;
}

function pasteBox(element: HourGrid) {
  const use = async () => {
    const isTaken = await takeText(element, element.querySelector('textarea')!.value);
    // The button that was pressed is gone then.
    if ((isTaken || element.refused) && !(await showWhatIsAsked(element)))
      element.querySelector<HTMLElement>('.tools [aria-expanded]')!.focus();
  };
  return html`<div class="paste-box">
    <textarea rows="6" spellcheck="false" aria-label="Text of a table, headings first"
      placeholder="Headings in the first line, then a line for each row"></textarea>
    <div class="tools">
      ${tool('Use this text', () => void use())}
      ${tool('Cancel', () => {
        element.pasting = false;
        element.refused = null;
      })}
    </div>
  </div>`;
}

/** More remarks than these are only counted. */
const REMARKS_SHOWN = 30;

const MARK_WORD = { problem: 'Problem', note: 'Note' } as const;

function remark(element: HourGrid, mark: GridMark, index: number) {
  const go = () => element.goTo({ row: mark.row, column: Math.max(0, mark.column) });
  return html`<li class=${mark.tone} id=${markId(element, index)}>
    <button type="button" class="place" @click=${go}>${spotName(element, mark)}</button>
    <span class="remark-tone">${MARK_WORD[mark.tone]}:</span> ${plain(mark.text)}
  </li>`;
}

/** Everything beneath the table: what is wrong with it, what can be done to it, how to bring one in. */
export const gridTools = (element: HourGrid, marks: readonly GridMark[]) => html`
  ${element.fault ? html`<p class="fault" role="alert">${element.fault}</p>` : nothing}
  ${
    marks.length > 0
      ? html`<ul class="remarks">${marks.slice(0, REMARKS_SHOWN).map((mark, i) => remark(element, mark, i))}
        ${marks.length > REMARKS_SHOWN ? html`<li>and ${marks.length - REMARKS_SHOWN} more</li>` : nothing}</ul>`
      : nothing
  }
  ${columnsPanel(element, marks)}
  ${tableTools(element)} ${fileTools(element)} ${element.pasting ? pasteBox(element) : nothing}
  <p class="message" role="status">${element.message}</p>
  <p class="hidden-text" id=${`${element.key}-keys`}>Arrow keys move. Type to replace an entry, Enter or F2 to edit it,
    Tab for the next one. Escape, then Tab, leaves the table.</p>`;

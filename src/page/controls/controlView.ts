import { html } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import { type GridValue, isEmpty } from '../../base/grid.ts';
import type { Control, Grid } from '../../view/controls.ts';
import type { CellState } from '../../workbook/engineTypes.ts';
import { inspect, plain } from '../results/inspect.ts';
import { tableView } from '../results/table.ts';
import { formatted } from './numbers.ts';
import './fields.ts';
import './grid/gridElement.ts';

/** A control with the name that its cell exports it by. */
export type ControlEntry = CellState['controls'][number];
/** Gives the control of a name a new value. */
export type Move = (control: string, value: unknown) => Promise<void>;

/** The live control of an entry; an element of its own for each name, since a control keeps undo steps. */
export const liveControl = (entry: ControlEntry, move: Move): unknown =>
  keyed(
    entry.name,
    controlElement(entry, (value) => move(entry.name, value)),
  );

function controlElement(
  { name, control, value }: ControlEntry,
  move: (value: unknown) => Promise<void>,
): unknown {
  switch (control.control) {
    case 'slider':
      return html`<hour-slider data-control=${name} .control=${control} .value=${value} .move=${move}></hour-slider>`;
    case 'number':
      return html`<hour-number data-control=${name} .control=${control} .value=${value} .move=${move}></hour-number>`;
    case 'choice':
      return html`<hour-choice data-control=${name} .control=${control} .value=${value} .move=${move}></hour-choice>`;
    case 'toggle':
      return html`<hour-toggle data-control=${name} .control=${control} .value=${value} .move=${move}></hour-toggle>`;
    case 'text':
      return html`<hour-text data-control=${name} .control=${control} .value=${value} .move=${move}></hour-text>`;
    case 'keeper':
      return html`<hour-keeper data-control=${name} .control=${control} .value=${value} .move=${move}></hour-keeper>`;
    case 'grid':
      return html`<hour-grid data-control=${name} .control=${control} .value=${value} .move=${move}></hour-grid>`;
    default:
      throw new TypeError(
        `there is no control of the kind ${inspect((control as { control: unknown }).control)}`,
      );
  }
}

/** A control's value in words, for where it cannot be moved. */
function valueText(control: Control, value: unknown): string {
  switch (control.control) {
    case 'slider':
    case 'number':
      return typeof value === 'number'
        ? `${formatted(value, control.step)} ${control.unit}`.trim()
        : 'left empty';
    case 'choice':
      return plain(control.options.find((option) => option.value === value)?.label ?? value);
    case 'toggle':
      return value ? 'yes' : 'no';
    case 'keeper':
      return value === null ? 'nothing kept' : 'kept';
    case 'grid':
      return 'nothing entered';
    default:
      return plain(value) || 'left empty';
  }
}

function gridTable(control: Grid, value: GridValue): unknown {
  const columns = value.headings.map((heading, i) => ({ key: String(i), heading }));
  const rows = value.rows.map((row) => Object.fromEntries(row.map((entry, i) => [String(i), entry])));
  return tableView({ view: 'table', caption: control.label, columns, rows });
}

/** A control as text: label and value, or the table it holds. */
export const staticControl = (control: Control, value: unknown): unknown =>
  control.control === 'grid' && !isEmpty(value as GridValue)
    ? gridTable(control, value as GridValue)
    : html`<dl class="settings"><dt>${plain(control.label)}</dt><dd>${valueText(control, value)}</dd></dl>`;

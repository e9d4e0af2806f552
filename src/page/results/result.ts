import { html, nothing } from 'lit';
import { type Control, isControl } from '../../view/controls.ts';
import { isView } from '../../view/view.ts';
import type { CellState } from '../../workbook/engineTypes.ts';
import { type ControlEntry, liveControl, type Move, staticControl } from '../controls/controlView.ts';
import { LightElement } from '../light.ts';
import type { PlotSource } from './chart.ts';
import { type Drawing, showable } from './showable.ts';

/** All controls inside what a cell shows. */
function controlsIn(value: unknown): Control[] {
  if (isControl(value)) return [value];
  if (Array.isArray(value)) return value.flatMap(controlsIn);
  return isView(value) && value.view === 'stack' && Array.isArray(value.items)
    ? value.items.flatMap(controlsIn)
    : [];
}

/** Exported controls that what the cell shows does not place itself; they stand above it. */
export function unplacedControls(state: CellState): ControlEntry[] {
  const placed = new Set(controlsIn(state.shown));
  return state.controls.filter((entry) => !placed.has(entry.control));
}

/** What one cell shows, live: its controls, then its views. */
export class HourResult extends LightElement {
  static override properties = {
    state: { attribute: false },
    source: { attribute: false },
    move: { attribute: false },
  };

  declare state: CellState;
  declare source: PlotSource;
  declare move: Move;

  readonly #drawing: Drawing = {
    chart: (view) => html`<hour-chart .view=${view} .source=${this.source}></hour-chart>`,
    control: (control) => {
      const entry = this.state.controls.find((e) => e.control === control);
      return entry ? liveControl(entry, this.move) : staticControl(control, control.value);
    },
  };

  protected override render() {
    const controls = unplacedControls(this.state);
    return html`<div class="result">
      ${
        controls.length > 0
          ? html`<div class="controls">${controls.map((entry) => liveControl(entry, this.move))}</div>`
          : nothing
      }
      <div>${showable(this.state.shown, this.#drawing)}</div>
    </div>`;
  }
}

customElements.define('hour-result', HourResult);

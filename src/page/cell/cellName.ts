import { html, nothing } from 'lit';
import { shortName } from '../../workbook/names.ts';
import { LightElement } from '../light.ts';

/** The name of a cell, changed in place: press it, type, Enter; Escape keeps the old one. */
export class HourCellName extends LightElement {
  static override properties = {
    name: {},
    rename: { attribute: false },
    renaming: { state: true },
    fault: { state: true },
  };

  declare name: string;
  declare rename: (to: string) => Promise<void>;
  declare renaming: boolean;
  declare fault: string;

  constructor() {
    super();
    this.renaming = false;
    this.fault = '';
  }

  async start(): Promise<void> {
    this.renaming = true;
    await this.updateComplete;
    this.querySelector('input')!.select();
  }

  async #stop(): Promise<void> {
    this.renaming = false;
    this.fault = '';
    await this.updateComplete;
    this.querySelector('button')?.focus();
  }

  async #accept(typed: string): Promise<void> {
    const to = `${shortName(typed.trim())}.ts`;
    if (to === this.name) return this.#stop();
    try {
      await this.rename(to);
      await this.#stop();
    } catch (error) {
      this.fault = error instanceof Error ? error.message : String(error);
    }
  }

  readonly #onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') void this.#accept((event.target as HTMLInputElement).value);
    else if (event.key === 'Escape') void this.#stop();
    else return;
    event.preventDefault();
  };

  protected override render() {
    const short = shortName(this.name);
    if (!this.renaming) {
      return html`<button type="button" class="cell-name quiet" title="Rename"
        aria-label=${`Rename ${short}`} @click=${() => void this.start()}>${short}</button>`;
    }
    return html`<input class="cell-name" aria-label="New name of the cell" .value=${short} spellcheck="false"
        aria-invalid=${this.fault ? 'true' : nothing} @keydown=${this.#onKey}
        @blur=${() => {
          if (!this.fault) this.renaming = false;
        }}>
      ${this.fault ? html`<span class="fault" role="alert">${this.fault}</span>` : nothing}`;
  }
}

customElements.define('hour-cell-name', HourCellName);

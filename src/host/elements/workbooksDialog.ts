import { html, nothing } from 'lit';
import { SHIPPED, type Shipped } from '../shipped.ts';
import type { StoredWorkbook } from '../store.ts';
import { LightElement } from './light.ts';

/** The workbooks kept in this browser, those that come with Hourline, and files. */
export class WorkbooksDialog extends LightElement {
  static override properties = {
    stored: { attribute: false },
    openId: { attribute: false },
    problem: { attribute: false },
  };

  declare stored: readonly StoredWorkbook[];
  /** Id of the workbook on the page. */
  declare openId: string;
  /** Why the list cannot be shown; '' when it can. */
  declare problem: string;

  constructor() {
    super();
    this.stored = [];
    this.openId = '';
    this.problem = '';
  }

  show(): void {
    this.#dialog.showModal();
  }

  get #dialog(): HTMLDialogElement {
    return this.querySelector('dialog')!;
  }

  override render() {
    return html`
      <dialog aria-labelledby="workbooks-title" @click=${this.#closeOutside}>
        <div class="sheet">
          <h2 id="workbooks-title">Workbooks</h2>
          <h3>Kept in this browser</h3>
          ${this.problem ? html`<p class="problem">${this.problem}</p>` : nothing}
          ${this.stored.length === 0 && !this.problem ? html`<p class="note">None yet: a workbook is kept as soon as you change it.</p>` : nothing}
          <ul>${this.stored.map((workbook) => this.#storedItem(workbook))}</ul>
          <h3>Start from</h3>
          <ul>${SHIPPED.map((shipped) => this.#shippedItem(shipped))}</ul>
          <h3>From a file</h3>
          <label class="file">
            Share page (.html) or workbook (.json)
            <input type="file" accept=".html,.json,text/html,application/json" @change=${this.#fileChosen} />
          </label>
          <div class="actions">
            <button type="button" @click=${() => this.#wish('save-workbook-file')}>Save this workbook to a file</button>
            <button type="button" @click=${() => this.#wish('open-held')}>Open this workbook without running</button>
            <button type="button" @click=${() => this.#dialog.close()}>Close</button>
          </div>
        </div>
      </dialog>
    `;
  }

  #storedItem({ document }: StoredWorkbook) {
    const { id, title } = document;
    const open = id === this.openId;
    return html`
      <li>
        <button type="button" class="open" aria-current=${open ? 'true' : nothing} @click=${() => this.#wish('open-workbook', id)}>
          ${title} <span class="note">changed ${new Date(document.changed).toLocaleString()}${open ? ', open now' : ''}</span>
        </button>
        <button type="button" aria-label="Duplicate ${title}" @click=${() => this.say('duplicate-workbook', id)}>Duplicate</button>
        <button type="button" aria-label="Delete ${title}" @click=${() => this.#wish('delete-workbook', id)}>Delete</button>
      </li>
    `;
  }

  #shippedItem(shipped: Shipped) {
    return html`
      <li>
        <button type="button" class="open" @click=${() => this.#wish('open-workbook', shipped.name)}>
          ${shipped.title} <span class="note">${shipped.about}, opens a fresh copy</span>
        </button>
      </li>
    `;
  }

  #wish(wish: string, detail: unknown = null): void {
    this.#dialog.close();
    this.say(wish, detail);
  }

  #fileChosen(event: Event): void {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file) this.#wish('open-file', file);
    input.value = ''; // so that the same file can be chosen again
  }

  #closeOutside(event: Event): void {
    if (event.target === this.#dialog) this.#dialog.close();
  }
}

customElements.define('hour-workbooks-dialog', WorkbooksDialog);

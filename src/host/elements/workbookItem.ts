import { html, nothing } from 'lit';
import type { WorkbookDocument } from '../../workbook/document.ts';
import { LightElement } from './light.ts';

interface WorkbookActions {
  open(): void;
  rename(title: string): void;
  versions(): void;
  duplicate(): void;
  delete(): void;
}

/** One kept workbook in the list: opens it, and has more to do with it behind a button. */
class WorkbookItem extends LightElement {
  static override properties = {
    workbook: { attribute: false },
    open: { attribute: false },
    actions: { attribute: false },
    more: { state: true },
    renaming: { state: true },
  };

  declare workbook: WorkbookDocument;
  /** Whether it is the one on the page. */
  declare open: boolean;
  declare actions: WorkbookActions;
  declare more: boolean;
  declare renaming: boolean;

  constructor() {
    super();
    this.more = false;
    this.renaming = false;
  }

  override render() {
    const { title } = this.workbook;
    return html`
      <div class="item">
        ${this.renaming ? this.#titleField() : this.#openButton()}
        <button
          type="button"
          aria-expanded=${this.more}
          aria-label="More for ${title}"
          @click=${() => {
            this.more = !this.more;
          }}
        >More</button>
      </div>
      ${this.more ? this.#moreActions() : nothing}
    `;
  }

  #openButton() {
    const { title, changed } = this.workbook;
    return html`<button type="button" class="open" aria-current=${this.open ? 'true' : nothing} @click=${() => this.actions.open()}>
      ${title} <span class="note">changed ${new Date(changed).toLocaleString()}${this.open ? ', open now' : ''}</span>
    </button>`;
  }

  #moreActions() {
    const { title } = this.workbook;
    return html`<div class="actions">
      <button type="button" aria-label="Rename ${title}" @click=${this.#startRenaming}>Rename</button>
      <button type="button" aria-label="Earlier versions of ${title}" @click=${() => this.actions.versions()}>Earlier versions</button>
      <button type="button" aria-label="Duplicate ${title}" @click=${() => this.actions.duplicate()}>Duplicate</button>
      <button type="button" aria-label="Delete ${title}" @click=${() => this.actions.delete()}>Delete</button>
    </div>`;
  }

  #titleField() {
    return html`<input
      class="title"
      aria-label="Title"
      maxlength="200"
      .value=${this.workbook.title}
      @keydown=${this.#titleKey}
      @blur=${(event: Event) => this.#endRenaming((event.target as HTMLInputElement).value)}
    />`;
  }

  async #startRenaming(): Promise<void> {
    this.renaming = true;
    await this.updateComplete;
    this.querySelector<HTMLInputElement>('input')!.select();
  }

  #titleKey(event: KeyboardEvent): void {
    if (event.key !== 'Enter' && event.key !== 'Escape') return;
    event.preventDefault(); // Escape would close the dialog
    const { value } = event.target as HTMLInputElement;
    this.#endRenaming(event.key === 'Enter' ? value : this.workbook.title);
  }

  /** Called a second time when the field leaves and loses the focus. */
  async #endRenaming(typed: string): Promise<void> {
    if (!this.renaming) return;
    this.renaming = false;
    const title = typed.trim();
    if (title && title !== this.workbook.title) this.actions.rename(title);
    await this.updateComplete;
    this.querySelector<HTMLButtonElement>('button.open')?.focus();
  }
}

customElements.define('hour-workbook-item', WorkbookItem);

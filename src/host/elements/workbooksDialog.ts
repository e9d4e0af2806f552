import { html, nothing } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { WorkbookDocument } from '../../workbook/document.ts';
import type { Desk, LookedAt } from '../desk.ts';
import { type AthleteGroup, groupByAthlete } from '../library/groups.ts';
import { Library } from '../library/library.ts';
import { type Damaged, titleOf } from '../library/record.ts';
import { SHIPPED, type Shipped } from '../shipped.ts';
import type { StoredWorkbook } from '../store.ts';
import { LightElement } from './light.ts';
import { spaceLine } from './spaceLine.ts';
import './versionsSheet.ts';
import './workbookItem.ts';

/** So many workbooks are found at a glance. */
const FEW = 4;

/** The library: the workbooks kept in this browser by athlete, those that come with Hourline, and files. */
export class WorkbooksDialog extends LightElement {
  static override properties = {
    desk: { attribute: false },
    search: { state: true },
    versionsOf: { state: true },
  };

  declare desk: Desk | null;
  declare search: string;
  /** The workbook whose earlier versions are shown; null while the list is. */
  declare versionsOf: { id: string; title: string } | null;
  readonly library = new Library(() => this.requestUpdate());

  constructor() {
    super();
    this.desk = null;
    this.search = '';
    this.versionsOf = null;
  }

  async show(): Promise<void> {
    this.versionsOf = null;
    await this.desk?.session?.flush(); // so that the list tells the present state
    await this.library.refresh();
    await this.updateComplete;
    this.#dialog.showModal();
  }

  get #dialog(): HTMLDialogElement {
    return this.querySelector('dialog')!;
  }

  override render() {
    return html`
      <dialog aria-labelledby="workbooks-title" @click=${this.#closeOutside}>
        <div class="sheet">${this.versionsOf ? this.#versions(this.versionsOf) : this.#list()}</div>
      </dialog>
    `;
  }

  #versions({ id, title }: { id: string; title: string }) {
    return html`<hour-versions
      .workbook=${id}
      .name=${title}
      .library=${this.library}
      .lookAt=${this.#closing((version: LookedAt) => this.desk?.lookAt(version))}
      .restore=${this.#closing((version: LookedAt) => this.desk?.restore(version))}
      .back=${() => {
        this.versionsOf = null;
      }}
    ></hour-versions>`;
  }

  #list() {
    const { contents, problem } = this.library;
    const { workbooks, deleted, damaged, readOnly } = contents;
    return html`
      <h2 id="workbooks-title">Workbooks</h2>
      ${problem ? html`<p class="problem" role="alert">${problem}</p>` : nothing}
      ${readOnly ? html`<p class="caution" role="note">Your workbooks can be opened and saved to files, not changed here: ${readOnly}.</p>` : nothing}
      ${workbooks.length > FEW ? this.#searchField() : nothing}
      ${this.#groups(workbooks)}
      ${damaged.length > 0 ? this.#damaged(damaged) : nothing}
      ${deleted.length > 0 ? this.#deleted(deleted) : nothing}
      <h3>Start from</h3>
      <ul>${SHIPPED.map((shipped) => this.#shippedItem(shipped))}</ul>
      <h3>From a file</h3>
      <label class="file">
        Share page (.html), workbook (.json) or all workbooks at once (.ndjson)
        <input type="file" accept=".html,.json,.ndjson,text/html,application/json" @change=${this.#fileChosen} />
      </label>
      <h3>Kept in this browser</h3>
      ${spaceLine(this.library)}
      <div class="actions">
        <button type="button" @click=${this.#closing(() => this.desk?.saveToFile())}>Save this workbook to a file</button>
        <button type="button" ?disabled=${workbooks.length + damaged.length === 0} @click=${() => this.library.saveAll()}>Save all workbooks to one file</button>
        <button type="button" @click=${this.#closing(() => this.desk?.session?.reopen(false))}>Open this workbook without running</button>
        <button type="button" @click=${() => this.#dialog.close()}>Close</button>
      </div>
    `;
  }

  #searchField() {
    return html`<label class="field">
      Find by athlete or title
      <input
        type="search"
        .value=${this.search}
        @input=${(event: Event) => {
          this.search = (event.target as HTMLInputElement).value;
        }}
      />
    </label>`;
  }

  #groups(workbooks: readonly StoredWorkbook[]) {
    if (workbooks.length === 0) {
      return html`<p class="note">None yet: a workbook is kept as soon as you change it.</p>`;
    }
    const groups = groupByAthlete(workbooks, workbooks.length > FEW ? this.search : '');
    if (groups.length === 0)
      return html`<p class="note" role="status">No workbook holds “${this.search}”.</p>`;
    return groups.map((group) => this.#group(group));
  }

  #group({ athlete, workbooks }: AthleteGroup) {
    return html`
      <h3>${athlete || 'No athlete named'}</h3>
      <ul aria-label=${athlete ? `Workbooks of ${athlete}` : 'Workbooks that name no athlete'}>
        ${repeat(
          workbooks,
          ({ document }) => document.id,
          ({ document }) => this.#item(document),
        )}
      </ul>
    `;
  }

  #item(document: WorkbookDocument) {
    const { id, title } = document;
    return html`<hour-workbook-item
      role="listitem"
      .workbook=${document}
      .open=${id === this.desk?.session?.document.id}
      .actions=${{
        open: this.#closing(() => this.desk?.open(id)),
        rename: (typed: string) => this.#rename(id, typed),
        versions: () => this.#showVersions(id, title),
        duplicate: () => this.library.duplicate(id),
        delete: this.#closing(() => this.desk?.delete(id)),
      }}
    ></hour-workbook-item>`;
  }

  /** The open workbook is renamed on the page, which then stores it. */
  async #rename(id: string, title: string): Promise<void> {
    const session = this.desk?.session;
    if (session?.document.id !== id) return this.library.rename(id, title);
    session.rename(title);
    await session.flush();
    await this.library.refresh();
  }

  #showVersions(id: string, title: string): void {
    this.versionsOf = { id, title };
  }

  #damaged(damaged: readonly Damaged[]) {
    return html`
      <h3>Damaged</h3>
      <p class="note">These cannot be read as they should. They stay as they are until you remove them.</p>
      <ul>${damaged.map((one) => this.#damagedItem(one))}</ul>
    `;
  }

  #damagedItem(damaged: Damaged) {
    const title = titleOf(damaged.raw);
    const readable = damaged.raw !== undefined;
    return html`<li class="with-actions">
      <span>${title}</span>
      ${readable ? html`<button type="button" @click=${this.#closing(() => this.desk?.openDamaged(damaged))}>Open what can be read</button>` : nothing}
      ${readable ? html`<button type="button" @click=${() => this.library.saveDamaged(damaged)}>Save the record to a file</button>` : nothing}
      <button type="button" @click=${() => this.#showVersions(damaged.id, title)}>Earlier versions</button>
      <button type="button" @click=${() => this.#remove(damaged.id, title)}>Remove for good</button>
    </li>`;
  }

  #deleted(deleted: readonly StoredWorkbook[]) {
    return html`<details>
      <summary>Deleted (${deleted.length}), kept for 30 days</summary>
      <ul>${deleted.map(
        ({ document: { id, title } }) => html`<li class="with-actions">
          <span>${title}</span>
          <button type="button" aria-label="Put ${title} back" @click=${() => this.library.putBack(id)}>Put back</button>
          <button type="button" aria-label="Remove ${title} for good" @click=${() => this.#remove(id, title)}>Remove for good</button>
        </li>`,
      )}</ul>
    </details>`;
  }

  #remove(id: string, title: string): void {
    if (confirm(`Remove “${title}” and its earlier versions for good?`)) void this.library.remove(id);
  }

  #shippedItem(shipped: Shipped) {
    return html`
      <li>
        <button type="button" class="open" @click=${this.#closing(() => this.desk?.open(shipped.name))}>
          ${shipped.title} <span class="note">${shipped.about}, opens a fresh copy</span>
        </button>
      </li>
    `;
  }

  /** The same act, after the dialog has closed: what it brings is seen on the page. */
  #closing<T extends unknown[]>(act: (...given: T) => unknown): (...given: T) => void {
    return (...given) => {
      this.#dialog.close();
      act(...given);
    };
  }

  #fileChosen(event: Event): void {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = ''; // so that the same file can be chosen again
    if (!file) return;
    this.#dialog.close();
    void this.desk?.openFile(file);
  }

  #closeOutside(event: Event): void {
    if (event.target === this.#dialog) this.#dialog.close();
  }
}

customElements.define('hour-workbooks-dialog', WorkbooksDialog);

import { html, nothing } from 'lit';
import type { WorkbookDocument } from '../../workbook/document.ts';
import type { LookedAt } from '../desk.ts';
import { differenceInWords } from '../library/difference.ts';
import type { Library } from '../library/library.ts';
import type { Version } from '../store.ts';
import { LightElement } from './light.ts';

/** The earlier versions of one workbook: what differs from the present one, to be looked at or restored. */
class VersionsSheet extends LightElement {
  static override properties = {
    versions: { state: true },
    problem: { state: true },
  };

  /** Set before it is shown. */
  declare workbook: string;
  declare name: string;
  declare library: Library;
  declare lookAt: (version: LookedAt) => void;
  declare restore: (version: LookedAt) => void;
  declare back: () => void;
  declare versions: readonly Version[] | null;
  declare problem: string;

  constructor() {
    super();
    this.versions = null;
    this.problem = '';
  }

  override async firstUpdated(): Promise<void> {
    this.querySelector<HTMLElement>('button')!.focus();
    try {
      this.versions = await this.library.versionsOf(this.workbook);
    } catch (error) {
      this.problem = `The earlier versions cannot be read (${error instanceof Error ? error.message : error}).`;
    }
  }

  get #present(): WorkbookDocument | undefined {
    return this.library.contents.workbooks.find(({ document }) => document.id === this.workbook)?.document;
  }

  override render() {
    return html`
      <h2 id="workbooks-title">Earlier versions</h2>
      <p>${this.name}</p>
      <div class="actions"><button type="button" @click=${() => this.back()}>Back to all workbooks</button></div>
      ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
      <div role="status">${this.versions?.length === 0 ? html`<p class="note">None yet: they come with the next changes.</p>` : nothing}</div>
      <ul class="versions">${this.versions?.map((version) => this.#item(version))}</ul>
      <p class="note">
        Of the last minutes every few seconds are kept, of the last two hours every ten minutes, of the last day every hour, then
        every day; at most some 4 MB for each workbook.
      </p>
    `;
  }

  #item(version: Version) {
    const looked = { ...version, id: this.workbook };
    const when = new Date(version.at).toLocaleString();
    return html`<li class="with-actions">
      <span>${when} <span class="note">${differenceInWords(version.document, this.#present)}</span></span>
      <button type="button" aria-label="Look at the version of ${when}" @click=${() => this.lookAt(looked)}>Look at it</button>
      <button type="button" aria-label="Restore the version of ${when}" @click=${() => this.restore(looked)}>Restore</button>
    </li>`;
  }
}

customElements.define('hour-versions', VersionsSheet);

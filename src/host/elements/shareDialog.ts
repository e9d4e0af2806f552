import { html, nothing } from 'lit';
import { LightElement } from './light.ts';

/** What to leave out of the share page, and the button that saves it. */
export class ShareDialog extends LightElement {
  static override properties = {
    busy: { attribute: false },
    problem: { attribute: false },
    trouble: { attribute: false },
    athlete: { attribute: false },
    leaveOut: { state: true },
  };

  declare busy: boolean;
  /** Why the last attempt failed; '' when it did not. */
  declare problem: string;
  /** How many cells failed or wait; '' when all are up to date. */
  declare trouble: string;
  /** The athlete's code, the first of the words to leave out; '' for none. */
  declare athlete: string;
  declare leaveOut: boolean;

  constructor() {
    super();
    this.busy = false;
    this.problem = '';
    this.trouble = '';
    this.athlete = '';
    this.leaveOut = false;
  }

  show(): void {
    this.problem = '';
    this.#dialog.showModal();
  }

  close(): void {
    this.#dialog.close();
  }

  get #dialog(): HTMLDialogElement {
    return this.querySelector('dialog')!;
  }

  override render() {
    return html`
      <dialog aria-labelledby="share-title">
        <form class="sheet" method="dialog" @submit=${this.#submitted}>
          <h2 id="share-title">Save a share page</h2>
          <p>
            One file with the results as they are now, the code that made them, cautions, and where they come from.
            It needs no program to read and runs nothing; opened in Hourline it is this workbook again.
          </p>
          ${this.trouble ? html`<p class="caution" role="note">${this.trouble}. ${TROUBLE_MEANS}</p>` : nothing}
          <label class="choice">
            <input
              type="checkbox"
              .checked=${this.leaveOut}
              @change=${(event: Event) => {
                this.leaveOut = (event.target as HTMLInputElement).checked;
              }}
            />
            Leave out who the athlete is
          </label>
          ${this.leaveOut ? wordsField(this.athlete) : nothing}
          ${this.problem ? html`<p class="problem" role="alert">${this.problem}</p>` : nothing}
          <div class="actions">
            <button type="submit" class="main" ?disabled=${this.busy}>${this.busy ? 'Saving' : 'Save share page'}</button>
            <button type="button" @click=${() => this.close()}>Close</button>
          </div>
        </form>
      </dialog>
    `;
  }

  #submitted(event: SubmitEvent): void {
    event.preventDefault(); // it closes when the page is saved
    const words = this.leaveOut ? this.querySelector<HTMLInputElement>('#share-words')!.value : null;
    this.say('save-share', words);
  }
}

const TROUBLE_MEANS =
  'The page will mark what they show as earlier results: mend the cells first if it is to be relied on.';

const wordsField = (athlete: string) => html`
  <label class="field" for="share-words">Code, names and other words to leave out, with commas between</label>
  <input id="share-words" .value=${athlete} />
  <p class="note">
    “Athlete” stands in their place in the title, the results, the code and the data. Dates, and entries of table columns for
    names and notes, are left out too; the finished file is searched for all of them before it is saved. Notes in other words
    stay: look the page through before you send it.
  </p>
`;

customElements.define('hour-share-dialog', ShareDialog);

import { InputError } from '../base/inputError.ts';
import { fileName, openFile, saveToDisk, workbookJson } from './files.ts';
import { Session } from './session.ts';
import { keepSetting, readSetting } from './settings.ts';
import { SHIPPED, shippedByName, startFrom } from './shipped.ts';
import {
  deleteWorkbook,
  listWorkbooks,
  readWorkbook,
  restoreWorkbook,
  type StoredWorkbook,
  saveWorkbook,
} from './store.ts';
import { copyOf } from './workbookDocument.ts';

const LAST = 'hourline-last';

/** Something to say once; `undo` when it can be taken back. */
export interface Message {
  text: string;
  undo: boolean;
}

/**
 * What lies on the desk: the open workbook, and the list of the others. The address names the open one after `#`:
 * a shipped workbook by its name, one of the reader's own by its id.
 */
export class Desk {
  session: Session | null = null;
  message: Message | null = null;
  stored: readonly StoredWorkbook[] = [];
  /** Why the list cannot be read; '' when it can. */
  listProblem = '';
  readonly #place: HTMLElement;
  readonly #changed: () => void;
  #deleted: StoredWorkbook | null = null;

  /** `place` receives the frames; `changed` is called after anything here or in the session changed. */
  constructor(place: HTMLElement, changed: () => void) {
    this.#place = place;
    this.#changed = changed;
  }

  /** Opens what the address names; without a name, what was open last; else the first shipped workbook. */
  async openAddress(): Promise<void> {
    const named = location.hash.slice(1) || readSetting(LAST) || SHIPPED[0]!.name;
    if (named !== this.session?.document.id) await this.open(named);
  }

  /** Opens a shipped workbook by name or a stored one by id. */
  async open(name: string, run = true): Promise<void> {
    const shipped = shippedByName(name);
    if (shipped) {
      return this.#attempt(async () => this.#show(fresh(await startFrom(shipped)), shipped.name, run));
    }
    try {
      const stored = await readWorkbook(name);
      if (stored) return await this.#show(stored, stored.document.id, run && stored.mayRun);
      this.#say('The workbook that was asked for is not kept in this browser; this is the sample instead.');
    } catch (error) {
      this.#say(
        `The workbooks kept in this browser cannot be read (${textOf(error)}); this is the sample instead.`,
      );
    }
    return this.open(SHIPPED[0]!.name);
  }

  /** Shows a workbook from a file, without running it. */
  async openFile(file: File): Promise<void> {
    try {
      const { document, altered } = await openFile(file);
      await this.#show({ document, revision: 0, mayRun: false }, document.id, false);
      this.session?.keep();
      if (altered)
        this.#say(`${file.name} was changed after Hourline saved it: its fingerprint does not fit.`);
    } catch (error) {
      this.#say(textOf(error));
    }
  }

  async duplicate(id: string): Promise<void> {
    await this.#attempt(async () => {
      const stored = await readWorkbook(id);
      if (stored)
        await saveWorkbook(copyOf(stored.document, `${stored.document.title} (copy)`), 0, stored.mayRun);
    });
    await this.refreshList();
  }

  async delete(id: string): Promise<void> {
    await this.#attempt(async () => {
      if (this.session?.document.id === id) await this.session.leave();
      this.#deleted = await deleteWorkbook(id);
      if (this.session?.document.id === id) await this.open(SHIPPED[0]!.name);
      this.#say(`“${this.#deleted?.document.title}” was deleted.`, true);
    });
    await this.refreshList();
  }

  async takeBack(): Promise<void> {
    const deleted = this.#deleted;
    if (!deleted) return;
    await this.#attempt(async () => {
      await restoreWorkbook(deleted);
      await this.open(deleted.document.id);
      this.dismiss();
    });
  }

  async refreshList(): Promise<void> {
    try {
      this.stored = await listWorkbooks();
      this.listProblem = '';
    } catch (error) {
      this.listProblem = `The workbooks kept in this browser cannot be read (${textOf(error)}).`;
    }
    this.#changed();
  }

  keepAsCopy(): void {
    this.session?.keepAsCopy();
  }

  /** Opens the version that another tab stored. */
  async openOther(): Promise<void> {
    if (this.session) await this.open(this.session.document.id);
  }

  async saveToFile(): Promise<void> {
    await this.session?.flush();
    if (!this.session) return;
    const { document } = this.session;
    saveToDisk(fileName(document.title, 'json'), workbookJson(document), 'application/json');
  }

  /** Saves the share page without the `words` of a line; returns what went wrong, or ''. */
  async saveShare(words: string): Promise<string> {
    const { session } = this;
    if (!session) return '';
    try {
      const { makeSharePage } = await import('./share/saveShare.ts');
      await session.flush();
      const { title, html } = await makeSharePage(session.document, await session.snapshot(), words);
      saveToDisk(fileName(title, 'html'), html, 'text/html');
      return '';
    } catch (error) {
      return textOf(error);
    }
  }

  dismiss(): void {
    this.message = null;
    this.#changed();
  }

  async #show(stored: StoredWorkbook, name: string, run: boolean): Promise<void> {
    await this.session?.leave();
    this.#setAddress(name);
    this.message = null;
    this.session = new Session(stored, this.#place, () => this.#sessionChanged());
    this.#changed();
    await this.#attempt(() => this.session!.open(run));
  }

  #sessionChanged(): void {
    const { session } = this;
    if (session?.stored) this.#setAddress(session.document.id);
    this.#changed();
  }

  #setAddress(name: string): void {
    if (location.hash !== `#${name}`) history.replaceState(null, '', `#${name}`);
    keepSetting(LAST, name);
  }

  async #attempt(act: () => Promise<void>): Promise<void> {
    try {
      await act();
    } catch (error) {
      this.#say(textOf(error));
    }
  }

  #say(text: string, undo = false): void {
    this.message = { text, undo };
    this.#changed();
  }
}

const fresh = (document: StoredWorkbook['document']): StoredWorkbook => ({
  document,
  revision: 0,
  mayRun: true,
});

/** An InputError's message is a sentence for the reader; anything else is reported as it is. */
const textOf = (error: unknown): string =>
  error instanceof InputError
    ? error.message
    : `Something failed: ${error instanceof Error ? error.message : error}`;

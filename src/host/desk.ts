import { InputError } from '../base/inputError.ts';
import { fileName, readWorkbookFile, saveToDisk, textOf, workbookJson } from './files.ts';
import { isLibraryFile } from './library/libraryFile.ts';
import { type Damaged, DamagedError, salvage } from './library/record.ts';
import { askToLastOnce } from './library/space.ts';
import { neverEnded } from './runMark.ts';
import { Session } from './session.ts';
import { keepSetting, readSetting } from './settings.ts';
import { SHIPPED, shippedByName, startFrom } from './shipped.ts';
import {
  deleteWorkbook,
  readWorkbook,
  restoreWorkbook,
  type StoredWorkbook,
  saveWorkbook,
  type Version,
} from './store.ts';
import { reasonOf } from './trouble.ts';
import { newId } from './workbookDocument.ts';

const LAST = 'hourline-last';

/** Something to say once, with what the reader can do about it. */
export interface Message {
  text: string;
  offer?: 'undo' | 'save-to-file';
}

/** The workbook that an earlier version belongs to, and what it was then. */
export interface LookedAt extends Version {
  id: string;
}

/**
 * What lies on the desk: the open workbook, or an earlier version of one. The address names the open one after `#`:
 * a shipped workbook by its name, one of the reader's own by its id.
 */
export class Desk {
  session: Session | null = null;
  message: Message | null = null;
  readonly #place: HTMLElement;
  readonly #changed: () => void;
  /** Id of the workbook deleted last. */
  #deleted: string | null = null;
  #version: LookedAt | null = null;
  /** Counts what was asked to be shown: what was asked for last is, however long another takes to be read. */
  #turn = 0;

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
    const turn = ++this.#turn;
    const shipped = shippedByName(name);
    if (shipped) {
      return this.#attempt(async () => this.#show(fresh(await startFrom(shipped)), shipped.name, run, turn));
    }
    try {
      const stored = await readWorkbook(name);
      if (stored) return await this.#show(stored, stored.document.id, run && stored.mayRun, turn);
      await this.#openSample('The workbook that was asked for is not kept in this browser');
    } catch (error) {
      if (error instanceof DamagedError) return this.openDamaged(error.damaged);
      await this.#openSample(`The workbooks kept in this browser cannot be read (${reasonOf(error)})`);
    }
  }

  async #openSample(why: string): Promise<void> {
    await this.open(SHIPPED[0]!.name);
    this.#say(`${why}; this is the sample instead.`);
  }

  /** Shows a workbook from a file, without running it; or takes in all workbooks of a library file. */
  async openFile(file: File): Promise<void> {
    await this.#attempt(async () => {
      const text = await textOf(file);
      if (isLibraryFile(text)) return this.#takeIn(text, file.name);
      const { document, altered } = await readWorkbookFile(text, file.name);
      await this.#show({ document, revision: 0, mayRun: false }, document.id, false);
      this.session?.keep();
      if (altered)
        this.#say(`${file.name} was changed after Hourline saved it: its fingerprint does not fit.`);
    });
  }

  /** Shows what can be read of a damaged record; the record stays as it is. */
  async openDamaged({ id, raw }: Damaged): Promise<void> {
    const document = salvage(raw);
    const text = 'A workbook kept in this browser is damaged. ';
    if (!document) {
      return this.#openSample(
        `${text}None of its cells can be read: its earlier versions are under Workbooks`,
      );
    }
    await this.#show({ document, revision: 0, mayRun: false }, id, false);
    const cells =
      document.cells.length === 1 ? 'its one readable cell' : `its ${document.cells.length} readable cells`;
    this.#say(
      `${text}These are ${cells}, not run. The damaged record stays as it is: save this to a file; a change is kept as a copy.`,
      'save-to-file',
    );
  }

  /** Shows an earlier version without running it. Changing it makes it a workbook of its own. */
  async lookAt(version: LookedAt): Promise<void> {
    await this.#attempt(async () => {
      const { id, document } = version;
      const present = await readWorkbook(id).catch(() => null);
      const mayRun = version.mayRun && (present?.mayRun ?? false);
      const copy = { ...document, id: newId(), title: `${document.title} (as of ${timeOf(version)})` };
      await this.#show({ document: copy, revision: 0, mayRun }, id, false);
      this.#version = version;
      this.#changed();
    });
  }

  /** The earlier version that is shown; null when it is none, or has become a workbook of its own. */
  get version(): LookedAt | null {
    return this.session?.stored ? null : this.#version;
  }

  /** Makes the earlier version the present state; what was the present state becomes an earlier version. */
  async restore({ id, at, document, mayRun }: LookedAt): Promise<void> {
    await this.#attempt(async () => {
      await this.session?.leave();
      const present = await readWorkbook(id);
      const restored = { ...document, id, changed: new Date().toISOString() };
      await saveWorkbook(restored, present?.revision ?? 0, mayRun && (present?.mayRun ?? false));
      await this.open(id);
      this.#say(
        `The workbook is as it was ${timeOf({ at })}. What it was until now is under Earlier versions.`,
      );
    });
  }

  async delete(id: string): Promise<void> {
    await this.#attempt(async () => {
      const open = this.session?.document.id === id;
      const title = (await readWorkbook(id))?.document.title;
      if (open) await this.session?.leave();
      await deleteWorkbook(id);
      this.#deleted = id;
      if (open) await this.open(SHIPPED[0]!.name);
      this.#say(`“${title}” was deleted.`, 'undo');
    });
  }

  async takeBack(): Promise<void> {
    const id = this.#deleted;
    if (!id) return;
    await this.#attempt(async () => {
      await restoreWorkbook(id);
      await this.open(id);
      this.dismiss();
    });
  }

  /** Opens the workbook that another tab changed, of which the open one became a copy. */
  async openOther(): Promise<void> {
    if (this.session?.other) await this.open(this.session.other);
  }

  async saveToFile(): Promise<void> {
    await this.session?.flush();
    if (!this.session) return;
    const { document } = this.session;
    saveToDisk(fileName(document.title, 'json'), workbookJson(document), 'application/json');
  }

  /** Saves the share page; without who the athlete is when there is a line of `words`. Returns what went wrong, or ''. */
  async saveShare(words: string | null): Promise<string> {
    const { session } = this;
    if (!session) return '';
    try {
      const { makeSharePage } = await import('./share/saveShare.ts');
      await session.flush();
      const { title, html } = await makeSharePage(session.document, await session.snapshot(), words);
      saveToDisk(fileName(title, 'html'), html, 'text/html');
      return '';
    } catch (error) {
      return sentenceOf(error);
    }
  }

  /** Stores again what could not be stored. */
  tryAgain(): void {
    this.session?.keep();
  }

  dismiss(): void {
    this.message = null;
    this.#changed();
  }

  async #takeIn(text: string, file: string): Promise<void> {
    const { Library } = await import('./library/library.ts');
    this.#say(await new Library(() => {}).takeIn(text, file));
  }

  async #show(stored: StoredWorkbook, name: string, run: boolean, turn = ++this.#turn): Promise<void> {
    await this.session?.leave();
    const interrupted = stored.revision > 0 && (await neverEnded(stored.document.id));
    if (turn !== this.#turn) return;
    this.#setAddress(name);
    this.message = null;
    this.#version = null;
    this.session = new Session(stored, interrupted, this.#place, () => this.#sessionChanged());
    this.#changed();
    const { session } = this;
    await this.#attempt(() => session.open(run && !interrupted));
  }

  #sessionChanged(): void {
    const { session } = this;
    if (session?.stored) {
      this.#setAddress(session.document.id);
      void askToLastOnce();
    }
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
      this.#say(sentenceOf(error));
    }
  }

  #say(text: string, offer?: Message['offer']): void {
    this.message = offer ? { text, offer } : { text };
    this.#changed();
  }
}

const fresh = (document: StoredWorkbook['document']): StoredWorkbook => ({
  document,
  revision: 0,
  mayRun: true,
});

const timeOf = ({ at }: { at: number }): string => new Date(at).toLocaleString();

/** An InputError's message is a sentence for the reader; anything else is reported as it is. */
const sentenceOf = (error: unknown): string =>
  error instanceof InputError ? error.message : `Something failed: ${reasonOf(error)}`;

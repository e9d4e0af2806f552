import type { WorkbookDocument } from '../workbook/document.ts';
import type { FrameMessage, SnapshotCell } from '../workbook/messages.ts';
import { sameValue } from '../workbook/sameValue.ts';
import { FrameLink } from './frameLink.ts';
import { clearRun, leaveRun, markRun, moveRun } from './runMark.ts';
import { shippedByName } from './shipped.ts';
import { ConflictError, type StoredWorkbook, saveWorkbook } from './store.ts';
import { currentTheme } from './theme.ts';
import { reasonOf } from './trouble.ts';
import { copyOf } from './workbookDocument.ts';

/** held: shown, nothing has run; stopped: the frame is gone. */
export type Phase = 'starting' | 'running' | 'held' | 'stopped';

/** How far what the reader made is kept; `refused`: the newest state cannot be taken in, and the one before it is kept. */
export type Saving = { state: 'saved' | 'saving' | 'refused' } | { state: 'failed'; reason: string };

type Status = Omit<Extract<FrameMessage, { kind: 'status' }>, 'kind'>;

const NOTHING_YET: Status = { started: false, running: 0, failed: 0, waiting: 0, cells: 0 };

/** One open workbook: its document, its frame, and its record in this browser. */
export class Session {
  document: WorkbookDocument;
  phase: Phase = 'starting';
  /** False while the frame does not answer. */
  answering = true;
  saving: Saving = { state: 'saved' };
  /** Id of the workbook that another tab changed or deleted, whereupon this went on as a copy; null mostly. */
  other: string | null = null;
  status: Status = NOTHING_YET;
  /** Whether the reader let this workbook run; those from a file ask first. */
  mayRun: boolean;
  /** Whether it was ended because a cell tried to go to another page. */
  triedToLeave = false;
  /** Whether its last run had not ended when this browser or its tab did. */
  readonly interrupted: boolean;
  readonly #place: HTMLElement;
  readonly #changed: () => void;
  #link: FrameLink | null = null;
  #revision: number;
  /** Frame revisions that wait to be stored. */
  #unsaved: number[] = [];
  #storing: Promise<void> | null = null;
  #run = true;
  /** Whether the frame has said that it runs since the last mark: that nothing ran before that is no news. */
  #begun = false;
  /** Whether the frame holds a state that was refused. */
  #refused = false;

  /** `changed` is called after any of the fields above changed. */
  constructor(stored: StoredWorkbook, interrupted: boolean, place: HTMLElement, changed: () => void) {
    this.document = stored.document;
    this.mayRun = stored.mayRun;
    this.#revision = stored.revision;
    this.interrupted = interrupted;
    this.#place = place;
    this.#changed = changed;
  }

  /** Shows the workbook in a new frame and, unless `run` is false, runs it. */
  async open(run: boolean): Promise<void> {
    this.#link?.stop();
    this.#run = run;
    this.#set({ phase: 'starting', answering: true, status: NOTHING_YET });
    const link = new FrameLink({
      message: (message) => this.#link === link && this.#receive(message),
      answering: (answering) => this.#link === link && this.#set({ answering }),
      refused: () => this.#link === link && this.#refuse(),
      left: () => this.#link === link && this.#left(),
    });
    this.#link = link;
    this.#refused = false;
    if (this.saving.state === 'refused') this.#set({ saving: { state: 'saved' } });
    await link.start(this.#place);
  }

  /** The reader lets the workbook run. */
  run(): void {
    if (!this.mayRun) this.#allow();
    if (this.phase === 'stopped') void this.open(true);
    else {
      this.#mark();
      this.#link?.send({ kind: 'run' });
    }
    this.#set({ phase: 'running' });
  }

  /** Before the frame hears that it may run something, for it may take this page with it. */
  #mark(): void {
    markRun(this.document.id);
    this.#begun = false;
  }

  /** The page, or its workbook, goes away of itself: what answers does not hang. */
  part(): void {
    if (this.phase === 'running' && this.answering) clearRun(this.document.id);
  }

  #allow(): void {
    this.mayRun = true;
    this.document = { ...this.document }; // a new state to store, so that the permission is stored with it
    this.keep();
  }

  /** Ends the frame at once when it hangs, else after what was just typed is stored. */
  async stop(): Promise<void> {
    await this.flush();
    this.#end();
    this.#set({ phase: 'stopped', answering: true });
  }

  #end(): void {
    this.part();
    leaveRun(this.document.id);
    this.#link?.stop();
    this.#link = null;
  }

  /** The same workbook in a new frame. */
  async reopen(run: boolean): Promise<void> {
    await this.flush();
    await this.open(run);
  }

  /** Takes in and stores what was just typed; waits for no frame that hangs. */
  async flush(): Promise<void> {
    if (this.answering) await this.#link?.flush();
    await this.#storing;
  }

  /** Ends the session: everything is stored, the frame is gone. */
  async leave(): Promise<void> {
    await this.flush();
    this.#end();
  }

  /** Whether this browser keeps a record of the workbook. */
  get stored(): boolean {
    return this.#revision > 0;
  }

  /** Whether every cell that can run has run. */
  get upToDate(): boolean {
    return this.phase === 'running' && this.status.started && this.status.running === 0;
  }

  /** A workbook that tries to lead its frame elsewhere is ended and has to ask before it runs again. */
  #left(): void {
    this.#end();
    this.mayRun = false;
    this.triedToLeave = true;
    this.#change({});
    this.#set({ phase: 'stopped', answering: true });
  }

  rename(title: string): void {
    this.#change({ title: title.trim() || 'Workbook' });
  }

  setTheme(theme: 'light' | 'dark'): void {
    this.#link?.send({ kind: 'theme', theme });
  }

  /** Leads the reader to the first cell that failed or waits. */
  showTrouble(): void {
    this.#link?.focus();
    this.#link?.send({ kind: 'show-trouble' });
  }

  snapshot(): Promise<SnapshotCell[]> {
    if (!this.#link) return Promise.resolve([]);
    return this.#link.snapshot();
  }

  /** Goes on under a new record, leaving the other tab's as it is. */
  #becomeCopy(): void {
    this.other = this.document.id;
    this.#revision = 0;
    this.document = copyOf(this.document, `${this.document.title} (copy)`);
    moveRun(this.other, this.document.id);
  }

  /** Stores the workbook as it is, e.g. one that was just opened from a file. */
  keep(): void {
    this.#storing ??= this.#storeAll();
  }

  #receive(message: FrameMessage): void {
    switch (message.kind) {
      case 'ready':
        void this.#sendDocument();
        break;
      case 'changed':
        if (this.phase === 'starting') break; // it has nothing yet, so it can have changed nothing
        this.#refused = false;
        if (message.runs) this.#mark();
        this.#unsaved.push(message.revision);
        this.#change({ cells: message.cells, settings: message.settings });
        break;
      case 'status': {
        const { kind: _, ...status } = message;
        if (sameValue(status, this.status)) break; // as while a control moves
        if (status.started && status.running > 0) this.#begun = true;
        else if (this.#begun) clearRun(this.document.id);
        this.#set({ status });
        break;
      }
    }
  }

  #refuse(): void {
    this.#refused = true;
    if (this.saving.state === 'saved') this.#set({ saving: { state: 'refused' } });
  }

  async #sendDocument(): Promise<void> {
    const link = this.#link;
    // Without the shipped texts the workbook opens all the same; only cells cannot be reset.
    const shipped =
      (await shippedByName(this.document.shipped)
        ?.cells()
        .catch(() => null)) ?? null;
    if (!link || link !== this.#link) return;
    const run = this.#run;
    if (run) this.#mark();
    link.send({ kind: 'open', document: this.document, shipped, run, theme: currentTheme() });
    this.#set({ phase: run ? 'running' : 'held' });
  }

  #change(change: Partial<WorkbookDocument>): void {
    this.document = { ...this.document, ...change, changed: new Date().toISOString() };
    this.keep();
  }

  /** Stores the newest state; what changes meanwhile is stored after it, together. */
  async #storeAll(): Promise<void> {
    let stored: WorkbookDocument | null = null;
    while (stored !== this.document) {
      const unsaved = this.#unsaved.splice(0);
      stored = await this.#store(this.document);
      const kind = this.saving.state === 'saved' ? 'saved' : 'save-failed';
      for (const revision of unsaved) this.#link?.send({ kind, revision });
    }
    this.#storing = null;
  }

  /** Resolves with what it was about: a copy where another tab has changed the workbook. */
  async #store(document: WorkbookDocument): Promise<WorkbookDocument> {
    this.#set({ saving: { state: 'saving' } });
    try {
      this.#revision = await saveWorkbook(document, this.#revision, this.mayRun);
      this.#set({ saving: { state: this.#refused ? 'refused' : 'saved' } });
    } catch (error) {
      if (error instanceof ConflictError) {
        this.#becomeCopy();
        return this.#store(this.document);
      }
      this.#set({ saving: { state: 'failed', reason: reasonOf(error) } });
    }
    return document;
  }

  #set(fields: Partial<Pick<Session, 'phase' | 'answering' | 'saving' | 'status'>>): void {
    Object.assign(this, fields);
    this.#changed();
  }
}

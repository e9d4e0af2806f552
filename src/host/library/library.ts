import { saveToDisk } from '../files.ts';
import {
  addVersions,
  type Contents,
  forgetVersions,
  listVersions,
  readContents,
  readWorkbook,
  removeOldDeleted,
  removeWorkbook,
  restoreWorkbook,
  type StoredWorkbook,
  saveWorkbook,
  type Version,
} from '../store.ts';
import { reasonOf } from '../trouble.ts';
import { copyOf } from '../workbookDocument.ts';
import { readLibrary } from './libraryFile.ts';
import { mergeLibrary } from './merge.ts';
import type { Damaged } from './record.ts';
import { saveAll } from './saveAll.ts';
import { askToLast, readSpace, type Space } from './space.ts';

const NOTHING: Contents = { workbooks: [], deleted: [], damaged: [], readOnly: '' };

/** All workbooks kept in this browser, as last read. What it does touches no workbook that is open. */
export class Library {
  contents: Contents = NOTHING;
  space: Space | null = null;
  /** Why the workbooks cannot be read, or what the last wish failed with; '' when all is well. */
  problem = '';
  readonly #changed: () => void;

  /** `changed` is called after any of the fields above changed. */
  constructor(changed: () => void) {
    this.#changed = changed;
  }

  async refresh(): Promise<void> {
    this.problem = '';
    try {
      this.contents = await readContents();
      if (!this.contents.readOnly) await removeOldDeleted(this.contents.deleted);
    } catch (error) {
      this.problem = `The workbooks kept in this browser cannot be read (${reasonOf(error)}).`;
    }
    this.space = await readSpace();
    this.#changed();
  }

  duplicate = (id: string): Promise<void> =>
    this.#change(async () => {
      const { document, mayRun } = await this.#present(id);
      await saveWorkbook(copyOf(document, `${document.title} (copy)`), 0, mayRun);
    });

  rename = (id: string, title: string): Promise<void> =>
    this.#change(async () => {
      const { document, revision, mayRun } = await this.#present(id);
      await saveWorkbook({ ...document, title, changed: new Date().toISOString() }, revision, mayRun);
    });

  putBack = (id: string): Promise<void> => this.#change(() => restoreWorkbook(id));

  /** For good, with all versions. */
  remove = (id: string): Promise<void> => this.#change(() => removeWorkbook(id));

  forgetVersions = (): Promise<void> => this.#change(forgetVersions);

  versionsOf(id: string): Promise<Version[]> {
    return listVersions(id);
  }

  async askToLast(): Promise<void> {
    await askToLast();
    await this.refresh();
  }

  /** Everything that can be read, with its earlier versions, as one file. */
  async saveAll(): Promise<void> {
    await this.refresh();
    if (this.problem) return;
    const now = new Date().toISOString();
    const { lines, leftOut } = await saveAll(this.contents, now);
    saveToDisk(`hourline-${now.slice(0, 10)}.ndjson`, lines, 'application/x-ndjson');
    this.problem = leftOut;
    this.#changed();
  }

  /** The record of a damaged workbook as it is. */
  saveDamaged({ id, raw }: Damaged): void {
    saveToDisk(`damaged-${id.slice(0, 8)}.json`, [`${JSON.stringify(raw, null, 1)}\n`], 'application/json');
  }

  /** Adds the workbooks of a library file and their earlier versions to those here, and says in a sentence what it did. */
  async takeIn(text: string, file: string): Promise<string> {
    const { workbooks, versions, refused } = readLibrary(text, file);
    const { workbooks: present, deleted, damaged } = await readContents();
    const taken = [...present, ...deleted].map((stored) => stored.document.id);
    const merge = mergeLibrary(
      present.map((stored) => stored.document),
      workbooks,
      new Set([...taken, ...damaged.map(({ id }) => id)]),
    );
    for (const document of [...merge.added, ...merge.beside]) await saveWorkbook(document, 0, false);
    let earlier = 0;
    try {
      for (const [id, found] of versions) earlier += await addVersions(merge.found.get(id)!, found);
    } catch (error) {
      refused.push(`Not all earlier versions could be kept (${reasonOf(error)})`);
    }
    await this.refresh();
    const said = [
      `${file}: ${merge.added.length} added`,
      merge.beside.length > 0 ? `${merge.beside.length} kept beside another state of the same workbook` : '',
      merge.alike > 0 ? `${merge.alike} here already` : '',
      earlier > 0 ? `with ${earlier} earlier version${earlier === 1 ? '' : 's'}` : '',
    ];
    return [said.filter(Boolean).join(', '), ...refused].join('. ');
  }

  async #present(id: string): Promise<StoredWorkbook> {
    const stored = await readWorkbook(id);
    if (!stored) throw new Error('it is no longer there');
    return stored;
  }

  async #change(act: () => Promise<void>): Promise<void> {
    let problem = '';
    try {
      await act();
    } catch (error) {
      problem = `That could not be done: ${reasonOf(error)}.`;
    }
    await this.refresh();
    this.problem ||= problem;
    this.#changed();
  }
}

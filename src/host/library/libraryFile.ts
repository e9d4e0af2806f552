import { InputError } from '../../base/inputError.ts';
import type { WorkbookDocument } from '../../workbook/document.ts';
import { newId, readDocument } from '../workbookDocument.ts';
import { versionsThatFit } from './thinning.ts';

/**
 * Everything in one file: a line of JSON that says what it is, then a workbook a line, then an earlier version a line. Each
 * is there whole, so that a damaged line costs one of them and no more, and a file that is cut off has lost versions first.
 */
const FORM = 'hourline-library-1';
const ID = /^[0-9a-f]{32}$/;
/** Sentences of one kind; beyond, how many more there are. */
const MOST_SAID = 5;

/** Whether a text begins as a file of many workbooks does. */
export const isLibraryFile = (text: string): boolean => text.trimStart().startsWith(`{"form":"${FORM}"`);

/** The first line, with its end; `saved` is a date-time. */
export const headLine = (saved: string, workbooks: number, versions: number): string =>
  lineOf({ form: FORM, saved, workbooks, versions });

/** A workbook's line, with its end. */
export const workbookLine = (document: WorkbookDocument): string => lineOf(document);

/** What the workbook that the file holds under `id` was before. */
export const versionLine = (id: string, document: WorkbookDocument): string =>
  lineOf({ versionOf: id, document });

const lineOf = (data: unknown): string => `${JSON.stringify(data)}\n`;

interface LibraryFile {
  workbooks: WorkbookDocument[];
  /** By the id of their workbook, newest first. */
  versions: Map<string, WorkbookDocument[]>;
  /** What cannot be read, in sentences. */
  refused: string[];
}

/** What a library file holds. Throws InputError when there is nothing in it that can be read. */
export function readLibrary(text: string, file: string): LibraryFile {
  const [head = '', ...lines] = text.trim().split('\n');
  const read: LibraryFile = { workbooks: [], versions: new Map(), refused: [] };
  const refusals: string[] = [];
  for (const [i, line] of lines.entries()) {
    try {
      readLine(line, `line ${i + 2} of ${file}`, read);
    } catch (error) {
      refusals.push(error instanceof Error ? error.message : String(error));
    }
  }
  read.refused = [...inFew(refusals), ...missing(head, lines.length, file), ...inFew(standIns(read))];
  if (read.workbooks.length === 0) {
    throw new InputError(read.refused[0] ?? `${file} holds no workbook`, { file });
  }
  read.refused.push(...inFew(bound(read.versions)));
  return read;
}

function readLine(line: string, place: string, into: LibraryFile): void {
  let data: { id?: unknown; versionOf?: unknown; document?: unknown } | null;
  try {
    data = JSON.parse(line);
  } catch {
    throw new InputError(`${place} is damaged: it is not valid JSON`);
  }
  const { id, versionOf } = data ?? {};
  if (versionOf === undefined) {
    into.workbooks.push(readDocument(data, place, isId(id) ? id : newId()));
    return;
  }
  if (!isId(versionOf)) throw new InputError(`${place} is damaged: it does not say whose version it is`);
  const version = readDocument(data?.document, place, versionOf);
  const others = into.versions.get(versionOf);
  if (others) others.push(version);
  else into.versions.set(versionOf, [version]);
}

const isId = (value: unknown): value is string => typeof value === 'string' && ID.test(value);

/** The newest version takes the place of a workbook that cannot be read itself. */
function standIns({ workbooks, versions }: LibraryFile): string[] {
  const said: string[] = [];
  const there = new Set(workbooks.map(({ id }) => id));
  for (const [id, found] of versions) {
    if (there.has(id)) continue;
    const [newest, ...older] = found.toSorted((a, b) => Date.parse(b.changed) - Date.parse(a.changed));
    workbooks.push(newest!);
    versions.set(id, older);
    said.push(`Of “${newest!.title}” only earlier versions can be read: the newest takes its place`);
  }
  return said;
}

/** Leaves of each workbook's versions those that are kept, newest first. */
function bound(versions: Map<string, WorkbookDocument[]>): string[] {
  const said: string[] = [];
  for (const [id, found] of versions) {
    const fit = versionsThatFit(found);
    versions.set(id, fit);
    if (fit.length < found.length) {
      const taken = `the newest ${fit.length} of ${found.length} earlier versions were taken`;
      said.push(`Of “${found[0]!.title}” ${taken}: more are not kept of one workbook`);
    }
  }
  return said;
}

function inFew(sentences: readonly string[]): string[] {
  const more = sentences.length - MOST_SAID;
  return more > 0 ? [...sentences.slice(0, MOST_SAID), `And ${more} more like these`] : [...sentences];
}

/** What the first line promises beyond the `lines` that follow it. */
function missing(head: string, lines: number, file: string): string[] {
  let promised: { workbooks?: unknown; versions?: unknown };
  try {
    promised = JSON.parse(head);
  } catch {
    return [`line 1 of ${file} is damaged: whether all is there cannot be told`];
  }
  const workbooks = countOf(promised.workbooks);
  const versions = countOf(promised.versions);
  const gone = [
    missingOf(workbooks - lines, workbooks, 'workbooks'),
    missingOf(Math.min(versions, workbooks + versions - lines), versions, 'earlier versions'),
  ].filter(Boolean);
  return gone.length > 0 ? [`${file} is cut off: ${gone.join(' and ')} are missing`] : [];
}

const countOf = (value: unknown): number =>
  Number.isSafeInteger(value) && (value as number) > 0 ? (value as number) : 0;

const missingOf = (missed: number, of: number, what: string): string =>
  missed > 0 ? `${missed} of ${of} ${what}` : '';

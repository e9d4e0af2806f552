import type { WorkbookDocument } from '../../workbook/document.ts';
import { LARGEST_FILE } from '../files.ts';
import { type Contents, listVersionKeys, readVersion } from '../store.ts';
import { reasonOf } from '../trouble.ts';
import { newId } from '../workbookDocument.ts';
import { headLine, versionLine, workbookLine } from './libraryFile.ts';
import { salvage } from './record.ts';

/** For the first line. */
const HEAD_BYTES = 1000;

interface SavedAll {
  /** Of a library file. */
  lines: string[];
  /** What of the store is not in it, in a sentence; '' when nothing is missing. */
  leftOut: string;
}

/**
 * All that can be read, with its earlier versions, as a library file; deleted workbooks are not in it. Versions have what the
 * workbooks leave of a file that can be opened again, the newest first: a workbook has up to 4 MB of them.
 */
export async function saveAll(
  { workbooks, damaged }: Contents,
  saved: string,
  most = LARGEST_FILE,
): Promise<SavedAll> {
  const documents: WorkbookDocument[] = workbooks.map(({ document }) => document);
  const idInFile = new Map(documents.map(({ id }) => [id, id]));
  for (const { id, raw } of damaged) {
    const document = salvage(raw);
    if (document) documents.push(document);
    idInFile.set(id, document?.id ?? newId());
  }
  const lines = documents.map(workbookLine);
  const room = lines.reduce((left, line) => left - bytesOf(line), most - HEAD_BYTES);
  const { versions, leftOut } = await versionLines(idInFile, room);
  return { lines: [headLine(saved, lines.length, versions.length), ...lines, ...versions], leftOut };
}

async function versionLines(
  idInFile: ReadonlyMap<string, string>,
  room: number,
): Promise<{ versions: string[]; leftOut: string }> {
  const versions: string[] = [];
  let left = room;
  try {
    const keys = (await listVersionKeys()).filter(([id]) => idInFile.has(id));
    for (const [i, key] of keys.entries()) {
      const version = await readVersion(key);
      if (!version) continue;
      const line = versionLine(idInFile.get(key[0])!, version.document);
      left -= bytesOf(line);
      if (left < 0) return { versions, leftOut: leftOutInWords(keys.length - i, version.at) };
      versions.push(line);
    }
    return { versions, leftOut: '' };
  } catch (error) {
    const leftOut = `The file holds the workbooks; not all earlier versions could be read (${reasonOf(error)}).`;
    return { versions, leftOut };
  }
}

const leftOutInWords = (count: number, at: number): string =>
  `The file holds all workbooks, but not the ${count} oldest of their earlier versions, from ${new Date(at).toLocaleString()} back: with them it would be too large to be opened again.`;

/** As the file has them, in UTF-8. */
const bytesOf = (line: string): number => new TextEncoder().encode(line).length;

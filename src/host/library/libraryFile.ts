import { InputError } from '../../base/inputError.ts';
import type { WorkbookDocument } from '../../workbook/document.ts';
import { newId, readDocument } from '../workbookDocument.ts';

/**
 * Everything in one file: a line of JSON that says what it is, then a workbook a line, so that a damaged line costs
 * one workbook and no more.
 */
const FORM = 'hourline-library-1';
const ID = /^[0-9a-f]{32}$/;

/** Whether a text begins as a file of many workbooks does. */
export const isLibraryFile = (text: string): boolean => text.trimStart().startsWith(`{"form":"${FORM}"`);

/** The lines of the file, each with its end. */
export const libraryLines = (workbooks: readonly WorkbookDocument[], saved: string): string[] =>
  [{ form: FORM, saved, workbooks: workbooks.length }, ...workbooks].map(
    (line) => `${JSON.stringify(line)}\n`,
  );

interface LibraryFile {
  workbooks: WorkbookDocument[];
  /** What cannot be read, in sentences. */
  refused: string[];
}

/** The workbooks in a library file. Throws InputError when it holds none that can be read. */
export function readLibrary(text: string, file: string): LibraryFile {
  const lines = text.trim().split('\n');
  const { workbooks: promised } = JSON.parse(lines[0]!) as { workbooks?: number };
  const read: LibraryFile = { workbooks: [], refused: [] };
  for (const [i, line] of lines.slice(1).entries()) {
    try {
      read.workbooks.push(readLine(line, `line ${i + 2} of ${file}`));
    } catch (error) {
      read.refused.push(error instanceof Error ? error.message : String(error));
    }
  }
  const missing = (promised ?? 0) - (lines.length - 1);
  if (missing > 0) read.refused.push(`${file} is cut off: ${missing} of ${promised} workbooks are missing`);
  if (read.workbooks.length === 0) {
    throw new InputError(read.refused[0] ?? `${file} holds no workbook`, { file });
  }
  return read;
}

function readLine(line: string, place: string): WorkbookDocument {
  let data: { id?: unknown } | null;
  try {
    data = JSON.parse(line);
  } catch {
    throw new InputError(`${place} is damaged: it is not valid JSON`);
  }
  const id = data?.id;
  return readDocument(data, place, typeof id === 'string' && ID.test(id) ? id : newId());
}

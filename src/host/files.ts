import { InputError } from '../base/inputError.ts';
import type { WorkbookDocument } from '../workbook/document.ts';
import { type OpenedShare, readSharePage } from './share/embedded.ts';
import { readDocument } from './workbookDocument.ts';

/** Bytes: above any share page of ours and any library we know of; a larger file is refused before it is read. */
export const LARGEST_FILE = 300_000_000;

/** The text of a file that the reader chose. Throws InputError for one too large to be ours. */
export async function textOf(file: File): Promise<string> {
  if (file.size > LARGEST_FILE) {
    throw new InputError(
      `${file.name} has ${Math.round(file.size / 1e6)} MB; what Hourline saves has less than 300 MB`,
    );
  }
  return file.text();
}

/** The workbook in a file's text: a share page, or the workbook's own JSON. Throws InputError for anything else. */
export async function readWorkbookFile(text: string, name: string): Promise<OpenedShare> {
  if (!text.trimStart().startsWith('{')) return readSharePage(text, name);
  return { document: readDocument(parse(text, name), name), altered: false };
}

function parse(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new InputError(`${file} is damaged: it begins like a workbook but is not valid JSON`, { file });
  }
}

/** A workbook as the text of a file of its own. */
export const workbookJson = (document: WorkbookDocument): string => `${JSON.stringify(document, null, 1)}\n`;

/** A file name from a title. */
export function fileName(title: string, extension: string): string {
  const stem = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
  return `${stem || 'workbook'}.${extension}`;
}

/** Hands the text, in one piece or many, to the reader as a download. */
export function saveToDisk(name: string, text: string | string[], type: string): void {
  const address = URL.createObjectURL(new Blob([text].flat(), { type: `${type};charset=utf-8` }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

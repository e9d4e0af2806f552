import { InputError } from '../../base/inputError.ts';
import type { WorkbookDocument } from '../../workbook/document.ts';
import { readDocument } from '../workbookDocument.ts';

/**
 * The workbook's source inside a share page: a block of JSON that no browser runs and that needs no browser to be
 * read again. Every `<` is written as an escape, so no text of a cell can end the block.
 */
const FORM = 'hourline-share-page-1';
const OPENING = '<script type="application/json" id="hourline-workbook">';
const CLOSING = '</script>';

interface Embedded {
  form: string;
  version: string;
  /** SHA-256 of the workbook's JSON text, hexadecimal; null when it could not be computed. */
  fingerprint: string | null;
  workbook: WorkbookDocument;
}

export interface OpenedShare {
  document: WorkbookDocument;
  /** The workbook is not what its fingerprint says: somebody changed the file after it was saved. */
  altered: boolean;
}

/** Hexadecimal SHA-256 of the workbook's JSON text; null where the browser offers none (a page without TLS). */
export async function fingerprintOf(workbook: object): Promise<string | null> {
  if (!globalThis.crypto?.subtle) return null;
  const bytes = new TextEncoder().encode(JSON.stringify(workbook));
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

export function embedWorkbook(
  workbook: WorkbookDocument,
  version: string,
  fingerprint: string | null,
): string {
  const embedded: Embedded = { form: FORM, version, fingerprint, workbook };
  return OPENING + JSON.stringify(embedded).replaceAll('<', '\\u003c') + CLOSING;
}

/** The workbook in a share page. Throws InputError when there is none or it cannot be read. */
export async function readSharePage(html: string, file = 'the file'): Promise<OpenedShare> {
  const start = html.lastIndexOf(OPENING);
  if (start < 0) throw new InputError(`${file} is no Hourline share page: it holds no workbook`, { file });
  const end = html.indexOf(CLOSING, start);
  if (end < 0) throw new InputError(`${file} is cut off: its workbook has no end`, { file });
  const embedded = parseEmbedded(html.slice(start + OPENING.length, end), file);
  const document = readDocument(embedded.workbook, file);
  const now = await fingerprintOf(embedded.workbook);
  const comparable = now !== null && embedded.fingerprint !== null;
  return { document, altered: comparable && now !== embedded.fingerprint };
}

function parseEmbedded(text: string, file: string): Embedded {
  let data: Partial<Embedded> | null;
  try {
    data = JSON.parse(text);
  } catch {
    throw new InputError(`${file} is damaged: its workbook is not valid JSON`, { file });
  }
  if (data?.form !== FORM || typeof data.workbook !== 'object' || data.workbook === null) {
    throw new InputError(
      `${file} is a share page of the form “${data?.form}” (Hourline ${data?.version}); this version reads ${FORM}`,
      { file },
    );
  }
  return data as Embedded;
}

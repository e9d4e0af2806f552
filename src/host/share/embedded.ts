import { InputError } from '../../base/inputError.ts';
import type { WorkbookDocument } from '../../workbook/document.ts';
import { readDocument } from '../workbookDocument.ts';
import { plainCode } from './code.ts';

/**
 * The workbook's source inside a share page. All but the code is a block of JSON that no browser runs and that needs no browser
 * to be read again; every `<` is written as an escape, so no text can end the block. The code is what the page shows.
 */
const FORM = 'hourline-share-page-2';
/** Earlier pages held the code in the block, too. */
const FORM_WITH_CODE = 'hourline-share-page-1';
const OPENING = '<script type="application/json" id="hourline-workbook">';
const CLOSING = '</script>';

interface Embedded {
  form: string;
  version: string;
  /** SHA-256 of the workbook's JSON text with the code, hexadecimal; null when it could not be computed. */
  fingerprint: string | null;
  workbook: Omit<WorkbookDocument, 'cells'> & { cells: { name: string; text?: string }[] };
}

/** A workbook taken out of a share page. */
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

/** The code of the cell with this number. Results cannot hold such a place: the sanitiser takes data attributes away. */
const shownCode = (cell: number): string => `<code data-cell="${cell}">`;
const CODE_END = '</code>';

/** The code of a cell as its reader sees it, in HTML with its words marked, in its place. */
export const embedCode = (cell: number, highlighted: string): string =>
  shownCode(cell) + highlighted + CODE_END;

/** All of a workbook but the code, which must be embedded too. */
export function embedWorkbook(
  document: WorkbookDocument,
  version: string,
  fingerprint: string | null,
): string {
  // In the same order of keys: the fingerprint is that of the text.
  const workbook = { ...document, cells: document.cells.map(({ name }) => ({ name })) };
  const embedded: Embedded = { form: FORM, version, fingerprint, workbook };
  return OPENING + JSON.stringify(embedded).replaceAll('<', '\\u003c') + CLOSING;
}

/** The workbook in a share page. Throws InputError when there is none or it cannot be read. */
export async function readSharePage(html: string, file = 'the file'): Promise<OpenedShare> {
  const start = html.lastIndexOf(OPENING);
  if (start < 0) throw new InputError(`${file} is no Hourline share page: it holds no workbook`, { file });
  const end = html.indexOf(CLOSING, start);
  if (end < 0) throw new InputError(`${file} is cut off: its workbook has no end`, { file });
  const { form, fingerprint, workbook } = parseEmbedded(html.slice(start + OPENING.length, end), file);
  const whole = form === FORM ? withCode(workbook, html.slice(0, start), file) : workbook;
  const document = readDocument(whole, file);
  const now = await fingerprintOf(whole).catch(() => {
    // JSON that can be read may be nested too deep to be written.
    throw new InputError(`${file} is damaged: its workbook is nested too deep`, { file });
  });
  const comparable = now !== null && fingerprint !== null;
  return { document, altered: comparable && now !== fingerprint };
}

/** The workbook with the code that the page shows. */
function withCode(workbook: Embedded['workbook'], page: string, file: string): object {
  if (!Array.isArray(workbook.cells)) return workbook;
  const cells = workbook.cells.map((cell, i) => {
    const name = cell?.name;
    const place = page.indexOf(shownCode(i));
    const end = page.indexOf(CODE_END, place);
    if (place < 0 || end < 0)
      throw new InputError(`${file} is damaged: the code of ${name} is missing`, { file });
    return { name, text: plainCode(page.slice(place + shownCode(i).length, end)) };
  });
  return { ...workbook, cells };
}

function parseEmbedded(text: string, file: string): Embedded {
  let data: Partial<Embedded> | null;
  try {
    data = JSON.parse(text);
  } catch {
    throw new InputError(`${file} is damaged: its workbook is not valid JSON`, { file });
  }
  const { form, version, workbook } = data ?? {};
  if (typeof form === 'string' && form !== FORM && form !== FORM_WITH_CODE) {
    const from = typeof version === 'string' ? ` (Hourline ${version})` : '';
    throw new InputError(`${file} is a share page of the form “${form}”${from}; this version reads ${FORM}`, {
      file,
    });
  }
  if (typeof form !== 'string' || typeof workbook !== 'object' || workbook === null)
    throw new InputError(`${file} is damaged: there is no workbook in it`, { file });
  return data as Embedded;
}

import { InputError } from '../base/inputError.ts';
import type { Activity } from './activity/activity.ts';
import { decodeText } from './decode.ts';
import type { SheetText } from './spreadsheet.ts';

/** What a file holds: text with a table in it, whichever way it was stored, or a recording of a device. */
type AnyFile =
  | { kind: 'table'; text: string; notes: string[]; sheets: string[]; sheet: string | null }
  | { kind: 'recording'; activity: Activity };

/** Largest file that is read at all, bytes (our rule): recordings of days are smaller. */
export const LARGEST_FILE = 64e6;

type Kind = 'fit' | 'track' | 'workbook' | 'text';

const startsWith = (bytes: Uint8Array, text: string, at = 0) =>
  [...text].every((letter, i) => bytes[at + i] === letter.charCodeAt(0));

/** XML begins with a bracket, after a mark of its encoding and blanks, if any. */
function looksLikeXml(bytes: Uint8Array): boolean {
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, 400)).replaceAll('\0', '');
  return /^(\u00ef\u00bb\u00bf|\u00ff\u00fe|\u00fe\u00ff)?\s*<(\?xml|!--|!DOCTYPE|gpx|TrainingCenterDatabase|\w+:)/.test(
    start,
  );
}

/** The kind of a file by its first bytes; names are often wrong. */
export function kindOf(bytes: Uint8Array): Kind {
  if (startsWith(bytes, '.FIT', 8)) return 'fit';
  if (startsWith(bytes, 'PK\x03\x04')) return 'workbook';
  return looksLikeXml(bytes) ? 'track' : 'text';
}

const fromSheet = ({ text, notes, sheets, sheet }: SheetText): AnyFile => ({
  kind: 'table',
  text,
  notes,
  sheets,
  sheet,
});

/**
 * Reads a file that somebody brought, whatever it is: delimited text, a workbook (.xlsx), or a recording (FIT, TCX, GPX).
 * The kind is told from the bytes. What only some files need is loaded when one comes.
 *
 * Throws    InputError, naming the file, for one that is none of these, is damaged, or is far too large
 */
export async function readAnyFile(
  bytes: Uint8Array,
  name: string,
  { sheet }: { sheet?: string } = {},
): Promise<AnyFile> {
  if (bytes.length === 0)
    throw new InputError(`${name}: empty; expected a table or a recording`, { file: name });
  if (bytes.length > LARGEST_FILE)
    throw new InputError(
      `${name}: ${(bytes.length / 1e6).toFixed(0)} MB; expected at most ${LARGEST_FILE / 1e6} MB`,
      {
        file: name,
      },
    );
  switch (kindOf(bytes)) {
    case 'fit': {
      const { readFit } = await import('./activity/fit.ts');
      return { kind: 'recording', activity: readFit(bytes, name) };
    }
    case 'track': {
      const { readTrack } = await import('./activity/tracks.ts');
      return { kind: 'recording', activity: readTrack(bytes, name) };
    }
    case 'workbook': {
      const { readSpreadsheet } = await import('./spreadsheet.ts');
      return fromSheet(readSpreadsheet(bytes, name, sheet));
    }
    case 'text':
      return { kind: 'table', text: decodeText(bytes, name), notes: [], sheets: [], sheet: null };
  }
}

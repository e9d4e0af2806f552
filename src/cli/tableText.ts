import { InputError } from '../base/inputError.ts';
import { decodeText } from '../data-in/decode.ts';
import { kindOf } from '../data-in/readAnyFile.ts';
import { readSpreadsheet } from '../data-in/spreadsheet.ts';

/**
 * The text of a table from the bytes of a file, a spreadsheet's first sheet with entries included, and what was decided on
 * the way, in sentences.
 *
 * Throws    InputError for a recording, and for what is no text
 */
export function tableText(bytes: Uint8Array, file: string): { text: string; notes: string[] } {
  switch (kindOf(bytes)) {
    case 'workbook':
      return readSpreadsheet(bytes, file);
    case 'text':
      return { text: decodeText(bytes, file), notes: [] };
    case 'fit':
    case 'track':
      throw new InputError(
        `${file}: a recording, which holds no lactate; expected a table (a recording is cut into stages in the workbook)`,
        { file },
      );
  }
}

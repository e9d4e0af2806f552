import { InputError } from '../base/inputError.ts';

const startsWith = (bytes: Uint8Array, ...start: number[]) => start.every((byte, i) => bytes[i] === byte);

/** Byte order marks of the text encodings that spreadsheets write besides UTF-8. */
function markedEncoding(bytes: Uint8Array): string | null {
  if (startsWith(bytes, 0xff, 0xfe)) return 'utf-16le';
  return startsWith(bytes, 0xfe, 0xff) ? 'utf-16be' : null;
}

/** Two bytes a letter without a mark: nearly every other byte of a table is 0 then. */
function unmarkedEncoding(bytes: Uint8Array): string | null {
  const start = bytes.subarray(0, 400);
  const zeros = [0, 0];
  start.forEach((byte, i) => {
    if (byte === 0) zeros[i % 2]!++;
  });
  const [even, odd] = zeros.map((count) => count / (start.length / 2));
  if (odd! > 0.8 && even === 0) return 'utf-16le';
  return even! > 0.8 && odd === 0 ? 'utf-16be' : null;
}

/**
 * The text of a file: UTF-8, UTF-16, or the one-byte encoding of older spreadsheets.
 *
 * Throws    InputError for a file that is no text, such as a spreadsheet's own format
 */
export function decodeText(bytes: Uint8Array, file?: string): string {
  const where = file ? `${file}: ` : '';
  // 'PK' begins every zip archive, which the common spreadsheet formats are.
  if (startsWith(bytes, 0x50, 0x4b, 0x03, 0x04))
    throw new InputError(`${where}a spreadsheet or archive, not text; expected it saved as CSV`, { file });
  const encoding = markedEncoding(bytes) ?? unmarkedEncoding(bytes);
  if (encoding) return new TextDecoder(encoding).decode(bytes);
  if (bytes.includes(0)) throw new InputError(`${where}not a text file; expected CSV`, { file });
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    // Some versions of Node leave the two dashes of this encoding as control characters.
    return new TextDecoder('windows-1252').decode(bytes).replace(/[\u0096\u0097]/g, '–');
  }
}

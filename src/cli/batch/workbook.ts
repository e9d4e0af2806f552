import { Buffer } from 'node:buffer';
import { InputError } from '../../base/inputError.ts';
import { kindOf, LARGEST_FILE } from '../../data-in/readAnyFile.ts';
import { tableText } from '../tableText.ts';

/** So many bytes tell a workbook. */
const SIGNATURE = 4;

/** All bytes of a file that cannot be read piece by piece. */
async function wholeOf(head: Uint8Array, rest: AsyncIterator<Uint8Array>, file: string): Promise<Uint8Array> {
  const pieces = [head];
  let size = head.length;
  for (let next = await rest.next(); !next.done; next = await rest.next()) {
    pieces.push(next.value);
    size += next.value.length;
    if (size > LARGEST_FILE)
      throw new InputError(
        `${file}: a workbook of over ${LARGEST_FILE / 1e6} MB; save the sheet as CSV, which is read as it comes`,
        { file },
      );
  }
  return Buffer.concat(pieces);
}

/**
 * The bytes of a table of many tests as they come; of a workbook (.xlsx) those of its sheet as text. `tell` gets what was
 * decided for that, in sentences.
 *
 * Throws    InputError for a workbook that is damaged or far too large
 */
export async function* withoutWorkbook(
  input: AsyncIterable<Uint8Array>,
  file: string,
  tell: (note: string) => void,
): AsyncGenerator<Uint8Array> {
  const pieces = input[Symbol.asyncIterator]();
  try {
    let head: Uint8Array = new Uint8Array(0);
    while (head.length < SIGNATURE) {
      const next = await pieces.next();
      if (next.done) break;
      head = Buffer.concat([head, next.value]);
    }
    if (kindOf(head) === 'workbook') {
      const { text, notes } = tableText(await wholeOf(head, pieces, file), file);
      notes.forEach(tell);
      yield new TextEncoder().encode(text);
      return;
    }
    yield head;
    for (let next = await pieces.next(); !next.done; next = await pieces.next()) yield next.value;
  } finally {
    await pieces.return?.();
  }
}

import { unzipSync } from 'fflate';
import { InputError } from '../base/inputError.ts';

/** Most bytes that the wanted parts of an archive may unpack to; a sheet of 200,000 rows is smaller (our rule). */
const MOST_UNPACKED = 64e6;
const MOST_PARTS = 2000;

/**
 * The wanted parts of a zip archive. Sizes are taken from its directory before anything is unpacked, and no part can grow
 * beyond what is said there: an archive made to fill the memory is refused for a few bytes.
 *
 * Throws    InputError for a damaged archive, or one that unpacks to too much
 */
export function unpack(
  bytes: Uint8Array,
  file: string,
  wanted: (name: string) => boolean,
): Map<string, Uint8Array> {
  let total = 0;
  let parts = 0;
  const refuse = (why: string) => new InputError(`${file}: ${why}`, { file });
  try {
    const unpacked = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        if (++parts > MOST_PARTS) throw refuse(`an archive of over ${MOST_PARTS} parts; expected a workbook`);
        if (!wanted(name)) return false;
        total += originalSize;
        if (total > MOST_UNPACKED)
          throw refuse(`unpacks to over ${MOST_UNPACKED / 1e6} MB; expected a workbook with the test alone`);
        return true;
      },
    });
    return new Map(Object.entries(unpacked));
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw refuse('a damaged or encrypted archive; expected the whole file, saved without a password');
  }
}

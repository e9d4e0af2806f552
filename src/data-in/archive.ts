import { Inflate } from 'fflate';
import { InputError } from '../base/inputError.ts';
import { packedBytes, type ZipEntry, zipEntries } from './zipDirectory.ts';

/** Most bytes that the wanted parts of an archive may unpack to; a sheet of 200,000 rows is smaller (our rule). */
const MOST_UNPACKED = 64e6;
const MOST_PARTS = 2000;
/**
 * Packed bytes that are unpacked before what came of them is counted; deflate makes at most a thousandfold. Each step has twice
 * the bytes of the one before: a part that begins to swell is found out at once, and a long one takes few steps.
 */
const FIRST_STEP = 1024;
const LONGEST_STEP = 16_384;
/** Packed bytes of which nothing comes: a stored block must be there whole first, but has no more than 65,535. */
const MOST_IDLE = 150_000;

/**
 * The wanted parts of a zip archive. Sizes are taken from its directory before anything is unpacked, and a part is given up
 * as soon as it is larger than is said there: an archive made to fill the memory, or the time, is refused for a few bytes.
 *
 * Throws    InputError for a damaged archive, or one that unpacks to too much
 */
export function unpack(
  bytes: Uint8Array,
  file: string,
  wanted: (name: string) => boolean,
): Map<string, Uint8Array> {
  const refuse = (why: string) => new InputError(`${file}: ${why}`, { file });
  try {
    const unpacked = new Map<string, Uint8Array>();
    for (const entry of wantedEntries()) unpacked.set(entry.name, unpackEntry(entry));
    return unpacked;
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw refuse('a damaged or encrypted archive; expected the whole file, saved without a password');
  }

  function wantedEntries(): ZipEntry[] {
    const entries: ZipEntry[] = [];
    let total = 0;
    let packed = 0;
    let parts = 0;
    for (const entry of zipEntries(bytes)) {
      if (++parts > MOST_PARTS) throw refuse(`an archive of over ${MOST_PARTS} parts; expected a workbook`);
      if (!wanted(entry.name)) continue;
      total += entry.size;
      packed += entry.packedSize;
      if (packed > bytes.length) throw new RangeError('parts that lie over one another');
      if (total > MOST_UNPACKED)
        throw refuse(`unpacks to over ${MOST_UNPACKED / 1e6} MB; expected a workbook with the test alone`);
      entries.push(entry);
    }
    return entries;
  }

  function unpackEntry(entry: ZipEntry): Uint8Array {
    const { name, method, size } = entry;
    const packed = packedBytes(bytes, entry);
    const found = method === 0 ? packed : inflate(packed, size, method);
    if (found && found.length <= size) return found;
    throw refuse(
      `its part “${name}” unpacks to more than the ${size} bytes it is said to have; expected the file as a spreadsheet saves it`,
    );
  }
}

/** Null when there is more in it than `most` bytes. */
function inflate(packed: Uint8Array, most: number, method: number): Uint8Array | null {
  if (method !== 8) throw new RangeError(`compressed in way ${method}`);
  const unpacked = new Uint8Array(most);
  let length = 0;
  let idle = 0;
  const inflating = new Inflate((part) => {
    if (length + part.length <= most) unpacked.set(part, length);
    length += part.length;
    if (part.length > 0) idle = 0;
  });
  for (
    let from = 0, step = FIRST_STEP;
    from < packed.length;
    from += step, step = Math.min(2 * step, LONGEST_STEP)
  ) {
    inflating.push(packed.subarray(from, from + step), from + step >= packed.length);
    if (length > most) return null;
    idle += step;
    if (idle > MOST_IDLE) throw new RangeError('bytes that unpack to nothing');
  }
  return unpacked.subarray(0, length);
}

import { strFromU8 } from 'fflate';

/** A part of a zip archive as the directory at the archive's end has it. Nothing in it is known to be true. */
export interface ZipEntry {
  name: string;
  /** 0: stored as it is, 8: deflated. */
  method: number;
  packedSize: number;
  /** Bytes, unpacked. */
  size: number;
  /** Where its header is, from the archive's beginning. */
  at: number;
}

const END = 0x06054b50;
const END_LENGTH = 22;
const LONGEST_COMMENT = 65535;
const END64_PLACE = 0x07064b50;
const END64 = 0x06064b50;
const ENTRY = 0x02014b50;
const ENTRY_LENGTH = 46;
const HEADER_LENGTH = 30;
const UTF8_NAME = 0x800;
/** Instead of a number that needs 64 bits; the number stands in a field of this kind. */
const IN_FIELD = 0xffffffff;
const NUMBERS64 = 1;

/** The archive's parts in turn (APPNOTE.TXT, 4.3 and 4.5). Throws RangeError where the archive ends too soon. */
export function* zipEntries(bytes: Uint8Array): Generator<ZipEntry> {
  const view = viewOf(bytes);
  let { count, at } = directoryOf(view);
  for (; count > 0; count--) {
    expectMark(view, at, ENTRY);
    const nameLength = view.getUint16(at + 28, true);
    const fieldsLength = view.getUint16(at + 30, true);
    const fields = at + ENTRY_LENGTH + nameLength;
    const name = bytes.subarray(at + ENTRY_LENGTH, fields);
    const numbers = [
      view.getUint32(at + 24, true),
      view.getUint32(at + 20, true),
      view.getUint32(at + 42, true),
    ];
    const [size, packedSize, header] = numbersOf(view, numbers, fields, fields + fieldsLength);
    yield {
      name: strFromU8(name, (view.getUint16(at + 8, true) & UTF8_NAME) === 0),
      method: view.getUint16(at + 10, true),
      packedSize: packedSize!,
      size: size!,
      at: header!,
    };
    at = fields + fieldsLength + view.getUint16(at + 32, true);
  }
}

/** The bytes of a part as they are in the archive. */
export function packedBytes(bytes: Uint8Array, { at, packedSize }: ZipEntry): Uint8Array {
  const view = viewOf(bytes);
  const start = at + HEADER_LENGTH + view.getUint16(at + 26, true) + view.getUint16(at + 28, true);
  return bytes.subarray(start, start + packedSize);
}

const viewOf = ({ buffer, byteOffset, length }: Uint8Array) => new DataView(buffer, byteOffset, length);

function expectMark(view: DataView, at: number, mark: number): void {
  if (view.getUint32(at, true) !== mark) throw new RangeError(`no entry of a directory at byte ${at}`);
}

/** Where the directory begins and how many entries it has. A comment may follow it, so it is looked for from the end. */
function directoryOf(view: DataView): { count: number; at: number } {
  const last = view.byteLength - END_LENGTH;
  let end = last;
  while (view.getUint32(end, true) !== END) {
    if (last - --end > LONGEST_COMMENT) throw new RangeError('no directory');
  }
  const in64 = end >= 20 && view.getUint32(end - 20, true) === END64_PLACE ? at64(view, end - 12) : null;
  if (in64 === null || view.getUint32(in64, true) !== END64) {
    return { count: view.getUint16(end + 10, true), at: view.getUint32(end + 16, true) };
  }
  return { count: at64(view, in64 + 32), at: at64(view, in64 + 48) };
}

/** The numbers with those that need 64 bits taken from their field, in which they follow one another. */
function numbersOf(view: DataView, numbers: readonly number[], from: number, to: number): number[] {
  if (!numbers.includes(IN_FIELD)) return [...numbers];
  let field = from;
  while (field + 4 < to && view.getUint16(field, true) !== NUMBERS64)
    field += 4 + view.getUint16(field + 2, true);
  if (field + 4 >= to) return [...numbers];
  let next = field + 4;
  return numbers.map((number) => {
    if (number !== IN_FIELD) return number;
    next += 8;
    return at64(view, next - 8);
  });
}

const at64 = (view: DataView, at: number): number => Number(view.getBigUint64(at, true));

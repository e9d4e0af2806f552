import { decodeText } from '../../data-in/decode.ts';

/** A line of the input, with its 1-based number; `text` is null where it was too long to be kept. */
export interface Line {
  line: number;
  text: string | null;
}

/** Longest line that is kept, bytes: a test takes a thousandth of it. */
export const LONGEST_LINE = 2 ** 20;
const [LINE_FEED, RETURN] = [0x0a, 0x0d];
const BREAK = /\r\n|\r|\n/;

/** Where the last complete line ends; a return at the very end may be half of a line break. */
function endOfLines(bytes: Uint8Array): number {
  const last = bytes.at(-1) === RETURN ? bytes.length - 2 : bytes.length - 1;
  return Math.max(bytes.lastIndexOf(LINE_FEED, last), bytes.lastIndexOf(RETURN, last)) + 1;
}

/** Two-byte text is made UTF-8 as it comes in; its byte order mark tells. */
async function* asBytes(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let decoder: TextDecoder | null = null;
  let first = true;
  for await (const chunk of chunks) {
    if (first && chunk.length > 1) {
      first = false;
      const mark = chunk[0]! * 256 + chunk[1]!;
      if (mark === 0xfffe) decoder = new TextDecoder('utf-16le');
      if (mark === 0xfeff) decoder = new TextDecoder('utf-16be');
    }
    yield decoder ? new TextEncoder().encode(decoder.decode(chunk, { stream: true })) : chunk;
  }
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  if (a.length === 0) return b;
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

/**
 * The lines of bytes that come in pieces: those that a piece completes, then those of the next. Holds no more than one
 * piece and one line of at most a mebibyte; of a longer line only its number is told.
 */
export async function* linesOf(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<Line[]> {
  let line = 1;
  let rest: Uint8Array = new Uint8Array(0);
  let tooLong = false;
  const take = (bytes: Uint8Array): Line[] => {
    const texts = decodeText(bytes).split(BREAK);
    const lines = texts.map((text, i) => ({ line: line + i, text: tooLong && i === 0 ? null : text }));
    line += texts.length - 1;
    return lines;
  };
  for await (const chunk of asBytes(chunks)) {
    const bytes = joined(rest, chunk);
    const end = endOfLines(bytes);
    if (end > 0) {
      yield take(bytes.subarray(0, end)).slice(0, -1);
      tooLong = false;
    }
    // A copy, so that the piece itself can go.
    rest = bytes.slice(end);
    if (rest.length > LONGEST_LINE) {
      tooLong = true;
      rest = new Uint8Array(0);
    }
  }
  if (rest.length > 0 || tooLong) yield take(rest);
}

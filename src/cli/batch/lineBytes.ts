const LINE_FEED = 0x0a;
/** What one unit of a text takes in UTF-8 at most. */
const MOST_BYTES = 3;

/**
 * Lines as UTF-8, each written into room that is kept for the next ones: made of one long text they take four times as long.
 */
export class LineBytes {
  readonly #encoder = new TextEncoder();
  #room = new Uint8Array(0);

  /** The bytes of these lines, each with its end, in memory of their own. */
  of(lines: readonly string[]): Uint8Array {
    const most = lines.reduce((sum, line) => sum + MOST_BYTES * line.length + 1, 0);
    if (most > this.#room.length) this.#room = new Uint8Array(2 * most);
    let end = 0;
    for (const line of lines) {
      end += this.#encoder.encodeInto(line, this.#room.subarray(end)).written;
      this.#room[end++] = LINE_FEED;
    }
    return this.#room.slice(0, end);
  }
}

import type { CellReader } from '../workbook/parsedCell.ts';
import { keyOf, type PackedRead, unpackRead } from './packedReads.ts';

/** The shipped cells, read by the build (src/tools/build.ts). */
declare const HOURLINE_SHIPPED_READS: Record<string, PackedRead>;

/**
 * Reads cells without the parser as long as all texts are shipped ones, so that the first chart need not wait for
 * it; whoever brings another text awaits `ready` first.
 */
export class LateReader {
  readonly #load: () => Promise<{ readCell: CellReader }>;
  #readCell: CellReader | null = null;

  constructor(load: () => Promise<object>) {
    this.#load = load as () => Promise<{ readCell: CellReader }>;
  }

  readonly read: CellReader = (text) => {
    const shipped = HOURLINE_SHIPPED_READS[keyOf(text)];
    if (shipped) return unpackRead(text, shipped);
    if (!this.#readCell) throw new Error('a cell was read before the parser was there');
    return this.#readCell(text);
  };

  /** Resolves when these texts can be read; without any, when the parser is there. */
  async ready(texts?: readonly string[]): Promise<void> {
    if (this.#readCell || texts?.every((text) => HOURLINE_SHIPPED_READS[keyOf(text)])) return;
    this.#readCell = (await this.#load()).readCell;
  }
}

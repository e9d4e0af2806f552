import { painted } from './painted.ts';
import { idleTurn } from './results/idleTurn.ts';

/** So many cells are put on the page at first, and with each paint once it was idle: the first are seen sooner. */
const AT_ONCE = 10;

/** How many cells, from the top, are on the page; all soon after it opened. */
export class Growth {
  readonly #changed: () => void;
  #placed = AT_ONCE;
  #grows = false;

  /** `changed` is called when more cells are to be put on the page. */
  constructor(changed: () => void) {
    this.#changed = changed;
  }

  get placed(): number {
    return this.#placed;
  }

  /** All at once, for a reader who wants to go to one of the last. */
  complete(cells: number): void {
    this.#set(Math.max(cells, this.#placed));
  }

  /** Puts the rest on the page, a few with each paint, once it was idle. `cells` tells how many there are by then. */
  async goOn(cells: () => number): Promise<void> {
    if (this.#grows || this.#placed >= cells()) return;
    this.#grows = true;
    await idleTurn();
    for (; this.#placed < cells(); await painted()) this.#set(this.#placed + AT_ONCE);
    this.#grows = false;
  }

  #set(placed: number): void {
    if (placed === this.#placed) return;
    this.#placed = placed;
    this.#changed();
  }
}

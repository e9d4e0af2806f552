import type { GridValue } from '../../../base/grid.ts';
import { entryAt, entryThatDiffers, type Spot } from './edits.ts';
import type { History, Step } from './history.ts';

/**
 * Makes a step to take back of an entry that is moved from outside the table, such as a reading that is dragged in a
 * picture: one step, however far it goes, and none once it is where it began.
 */
export class OutsideMoves {
  readonly #history: History<Step>;
  #last: GridValue | null = null;
  /** The entry that is being moved; null after a change made in the table. */
  #moving: Spot | null = null;

  constructor(history: History<Step>) {
    this.#history = history;
  }

  /** A change made in the table, which makes its own step. */
  own(grid: GridValue): void {
    this.#last = grid;
    this.#moving = null;
  }

  /** The table as it is now shown. */
  see({ grid, source }: Step): void {
    const before = this.#last;
    this.#last = grid;
    const at = before && entryThatDiffers(before, grid);
    if (!at) return;
    if (this.#moving?.row !== at.row || this.#moving.column !== at.column) {
      this.#history.record({ grid: before, source });
      this.#moving = at;
    } else if (entryAt(this.#history.last!.grid, at) === entryAt(grid, at)) {
      this.#history.forget();
      this.#moving = null;
    }
  }
}

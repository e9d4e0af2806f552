const nextFrame = () => new Promise<void>((done) => requestAnimationFrame(() => done()));

/**
 * Delivers values one at a time: while one is on its way only the newest of those that follow is kept, and it
 * leaves no sooner than the next frame. A slider that is dragged fast thus never queues up work.
 */
export class LatestWins<T> {
  readonly #deliver: (value: T) => Promise<void>;
  readonly #turn: () => Promise<void>;
  #next: { value: T } | null = null;
  #busy = false;

  constructor(deliver: (value: T) => Promise<void>, turn: () => Promise<void> = nextFrame) {
    this.#deliver = deliver;
    this.#turn = turn;
  }

  /** Resolves when nothing is left to deliver; at once when an earlier call is still delivering. */
  async send(value: T): Promise<void> {
    this.#next = { value };
    if (this.#busy) return;
    this.#busy = true;
    try {
      while (this.#next) {
        const { value: newest } = this.#next;
        this.#next = null;
        await this.#deliver(newest);
        if (this.#next) await this.#turn();
      }
    } finally {
      this.#busy = false;
    }
  }

  get busy(): boolean {
    return this.#busy;
  }
}

import { painted } from './painted.ts';

/** A hand that moves nothing for so long after it saw its last move is at rest, ms. */
const RESTS_AFTER = 250;

/** Whether somebody is just moving a control: then nothing is done that can wait. */
export class Hand {
  #move = 0;
  /** Settles when the hand that moves now rests. */
  #moving: PromiseWithResolvers<void> | null = null;

  moves(): void {
    this.#moving ??= Promise.withResolvers();
    const move = ++this.#move;
    void painted().then(() => setTimeout(() => this.#restsFrom(move), RESTS_AFTER));
  }

  #restsFrom(move: number): void {
    if (move !== this.#move) return;
    this.#moving?.resolve();
    this.#moving = null;
  }

  /** Resolves when the hand rests; null when it does already. */
  rests(): Promise<void> | null {
    return this.#moving?.promise ?? null;
  }
}

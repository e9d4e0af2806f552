/** A hand that has not moved a control for so long is at rest, ms. */
const RESTS_AFTER = 250;

const wait = (milliseconds: number) => new Promise<void>((resolve) => setTimeout(resolve, milliseconds));

/** Whether somebody is just moving a control: then nothing is done that can wait. */
export class Hand {
  #moved = -Infinity;

  moves(): void {
    this.#moved = performance.now();
  }

  get atRest(): boolean {
    return performance.now() - this.#moved >= RESTS_AFTER;
  }

  async rests(): Promise<void> {
    while (!this.atRest) await wait(this.#moved + RESTS_AFTER - performance.now());
  }
}

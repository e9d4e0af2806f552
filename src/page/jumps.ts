import type { HourCell } from './cell/cell.ts';
import type { CellElements } from './cellElements.ts';
import { WayBack } from './wayBack.ts';

/** How long after a request of the host the keyboard may come to this window, ms. */
const FOCUS_MS = 1000;

/** Leads the reader to cells, and back. */
export class Jumps {
  readonly #elements: CellElements;
  readonly #complete: () => Promise<unknown>;
  readonly #wayBack = new WayBack();

  /** `complete` puts those cells on the page that are not there yet. */
  constructor(elements: CellElements, complete: () => Promise<unknown>) {
    this.#elements = elements;
    this.#complete = complete;
  }

  /** Scrolls to a cell and puts the focus on it; null when there is no such cell. */
  async to(cell: string): Promise<HTMLElement | null> {
    if (!this.#elements.of(cell)) {
      await this.#complete();
      await this.#elements.of(cell)?.updateComplete;
    }
    const section = this.#elements.of(cell)?.querySelector<HTMLElement>('section') ?? null;
    section?.focus({ preventScroll: true });
    const top = section?.getBoundingClientRect().top ?? 0;
    if (top < 0 || top > innerHeight / 2) section?.scrollIntoView({ block: 'start' });
    return section;
  }

  /** Goes to a cell for the host, in whose window the keyboard still may be. */
  async answer(cell: string): Promise<void> {
    await this.to(cell);
    // That the keyboard left this window, which takes the focus off the cell, and came back may arrive after the request.
    addEventListener('focus', () => void this.to(cell), {
      once: true,
      signal: AbortSignal.timeout(FOCUS_MS),
    });
  }

  /** Follows a link to a cell and offers the way back; false when there is no such cell. */
  async follow(link: HTMLElement, cell: string): Promise<boolean> {
    const from = link.closest<HourCell>('hour-cell')!;
    const section = await this.to(cell);
    if (section) this.#wayBack.offer(section, { cell: from.state.name, link });
    return section !== null;
  }
}

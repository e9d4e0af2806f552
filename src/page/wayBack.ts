import { shortName } from '../workbook/names.ts';

/** On the root while the offer stands: the page keeps its foot free. */
const OFFERED = 'way-back-offered';

/** Where a reader came from who followed a link in the text to another cell. */
interface Departure {
  cell: string;
  link: HTMLElement;
}

/**
 * Offers the way back to whoever followed a link to a cell. It stands at the foot of the window, so that nothing moves, and
 * first in the cell, so that it is the next stop of the keyboard.
 */
export class WayBack {
  #offer: HTMLElement | null = null;

  offer(section: HTMLElement, { cell, link }: Departure): void {
    this.withdraw();
    const offer = document.createElement('div');
    offer.className = 'way-back';
    const back = button(`Back to ${shortName(cell)}`, () => {
      this.withdraw();
      link.focus({ preventScroll: true });
      link.scrollIntoView({ block: 'center' });
    });
    const dismiss = button('×', () => {
      this.withdraw();
      section.focus({ preventScroll: true });
    });
    dismiss.className = 'quiet';
    dismiss.ariaLabel = 'Stay here';
    offer.append(back, dismiss);
    section.prepend(offer);
    this.#offer = offer;
    document.documentElement.classList.add(OFFERED);
  }

  withdraw(): void {
    this.#offer?.remove();
    this.#offer = null;
    document.documentElement.classList.remove(OFFERED);
  }
}

function button(words: string, act: () => void): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.textContent = words;
  made.addEventListener('click', act);
  return made;
}

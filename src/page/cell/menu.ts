import { html, nothing } from 'lit';
import { freshId, LightElement } from '../light.ts';

/** An entry of a menu; one that is not `able` is shown and cannot be chosen. */
export interface MenuItem {
  label: string;
  act(): void;
  able?: boolean;
}

/** A button that opens a list of actions: arrow keys, Home, End, Enter, and Escape to close, as menus have it. */
class HourMenu extends LightElement {
  static override properties = { label: {}, items: { attribute: false }, open: { state: true } };

  declare label: string;
  declare items: readonly MenuItem[];
  declare open: boolean;
  readonly #listId = freshId('menu');

  constructor() {
    super();
    this.open = false;
    this.addEventListener('focusout', (event) => {
      if (!this.contains(event.relatedTarget as Node | null)) this.open = false;
    });
  }

  get #buttons(): HTMLButtonElement[] {
    return [...this.querySelectorAll<HTMLButtonElement>('[role="menuitem"]:not([disabled])')];
  }

  async #show(which: 'first' | 'last' = 'first'): Promise<void> {
    this.open = true;
    await this.updateComplete;
    this.#buttons.at(which === 'first' ? 0 : -1)?.focus();
  }

  #close(): void {
    this.open = false;
    this.querySelector<HTMLButtonElement>('.menu-button')!.focus();
  }

  #choose(item: MenuItem): void {
    this.#close();
    item.act();
  }

  readonly #onButtonKey = (event: KeyboardEvent): void => {
    if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
    event.preventDefault();
    void this.#show(event.key === 'ArrowDown' ? 'first' : 'last');
  };

  readonly #onListKey = (event: KeyboardEvent): void => {
    const buttons = this.#buttons;
    const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
    const goal: Record<string, number> = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: -1 };
    if (event.key === 'Escape') this.#close();
    else if (event.key in goal) buttons.at(goal[event.key]! % buttons.length)!.focus();
    else return;
    event.preventDefault();
  };

  protected override render() {
    return html`<button type="button" class="menu-button quiet" aria-haspopup="menu" aria-expanded=${this.open}
        aria-controls=${this.#listId} aria-label=${this.label}
        @click=${() => (this.open ? this.#close() : void this.#show())} @keydown=${this.#onButtonKey}>···</button>
      ${
        this.open
          ? html`<div class="menu" role="menu" id=${this.#listId} aria-label=${this.label} @keydown=${this.#onListKey}>
        ${this.items.map(
          (item) => html`<button type="button" role="menuitem" tabindex="-1" ?disabled=${item.able === false}
            @click=${() => this.#choose(item)}>${item.label}</button>`,
        )}
      </div>`
          : nothing
      }`;
  }
}

customElements.define('hour-menu', HourMenu);

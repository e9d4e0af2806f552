import { html, nothing } from 'lit';

/** The last thing that took something away, and how to bring it back. */
export interface Undo {
  what: string;
  back(): Promise<void>;
  /** Whether a control was moved, which its table can take back as well. */
  isMove?: boolean;
}

/** Offers to take the last deletion, reset or drag back: in a line at the foot of the window, and by Control and Z. */
export class LastUndo {
  readonly #changed: () => void;
  #undo: Undo | null = null;

  /** `changed` is called when there is another line to show, or none. */
  constructor(changed: () => void) {
    this.#changed = changed;
  }

  /** Replaces what was offered before. */
  offer(undo: Undo): void {
    this.#set(undo);
  }

  /** A control was moved: the same one would lose that, and for another the offer must not stand over the page for good. */
  controlMoved(): void {
    if (this.#undo?.isMove) this.#set(null);
  }

  /** Editors and tables use the key up for what was typed in them; fields take back their own typing. */
  pressed(event: KeyboardEvent): void {
    const isUndo = (event.ctrlKey || event.metaKey) && !event.shiftKey && event.key.toLowerCase() === 'z';
    if (!isUndo || !this.#undo || event.defaultPrevented) return;
    if ((event.target as Element).matches('input, textarea')) return;
    event.preventDefault();
    this.#takeBack();
  }

  /** The line with the offer. */
  line() {
    if (!this.#undo) return nothing;
    return html`<div class="undo-offer"><span role="status">${this.#undo.what}</span>
      <button type="button" aria-keyshortcuts="Control+Z" title="Control+Z" @click=${this.#takeBack}>Undo</button>
      <button type="button" class="quiet" aria-label="Dismiss" @click=${() => this.#set(null)}>×</button>
    </div>`;
  }

  readonly #takeBack = (): void => {
    const undo = this.#undo;
    this.#set(null);
    void undo?.back();
  };

  #set(undo: Undo | null): void {
    this.#undo = undo;
    this.#changed();
  }
}

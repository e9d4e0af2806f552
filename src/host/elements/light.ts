import { LitElement } from 'lit';

/** Base of the host's elements: rendered into the document itself, so that one style sheet reaches all. */
export class LightElement extends LitElement {
  protected override createRenderRoot(): HTMLElement {
    return this;
  }

  /** Tells whoever holds this element what the reader wants. */
  protected say(wish: string, detail: unknown = null): void {
    this.dispatchEvent(new CustomEvent(wish, { detail, bubbles: true }));
  }
}

import { LitElement } from 'lit';

/** Base of all elements here: rendered into the document itself, so that the style sheets in src/look reach them. */
export class LightElement extends LitElement {
  protected override createRenderRoot(): HTMLElement {
    return this;
  }
}

let count = 0;

/** An id that no other element of this page has. */
export const freshId = (stem: string): string => `hour-${stem}-${++count}`;

import { html, nothing } from 'lit';
import { unbroken } from '../../base/format.ts';
import type { Control } from '../../view/controls.ts';
import { plain } from '../results/inspect.ts';

/** Id of the sentence that explains a control, for what it describes. */
export const aboutId = (id: string): string => `${id}-about-text`;

/**
 * A button that opens the explanation of a control above the page, so that nothing moves. The sentence is in the page from
 * the start: fields name it as their description, and a screen reader reads it out with them.
 */
export function aboutButton(id: string, { label, about }: Control): unknown {
  if (!about) return nothing;
  return html`<button type="button" class="about" popovertarget=${`${id}-about`} aria-label=${`About: ${plain(label)}`}>?</button>
    <span popover class="explanation" id=${`${id}-about`}><span id=${aboutId(id)}>${unbroken(plain(about.says))}</span>
      <span class="source">Source: ${unbroken(plain(about.source))}</span></span>`;
}

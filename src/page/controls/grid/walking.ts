import { html } from 'lit';
import { live } from 'lit/directives/live.js';
import { sameValue } from '../../../workbook/sameValue.ts';
import type { HourGrid } from './gridElement.ts';
import type { Step } from './history.ts';

/**
 * Changes the table as a list of choices says. Keys that walk through a list choose one thing after the other: each goes from
 * the table before, so that what was only passed leaves no trace, and all of it is one step.
 */
export function walk(
  element: HourGrid,
  list: number | 'headings',
  from: (before: Step) => { step: Step; said: string },
): void {
  const { correcting } = element;
  const walking = correcting?.list === list && sameValue(correcting.made, element.grid) ? correcting : null;
  const before = walking?.before ?? element.step;
  const { step, said } = from(before);
  if (walking) element.amend(step, said);
  else element.change(step.grid, said, step.source);
  element.correcting = { list, before, made: step.grid };
}

interface List {
  label: string;
  options: readonly { value: string; text: string }[];
  chosen: string;
  choose(value: string): void;
}

/** A list of choices; what is chosen is set on the options, so that it holds also when they change. */
export function choices(element: HourGrid, { label, options, chosen, choose }: List) {
  const changed = (event: Event) => choose((event.target as HTMLSelectElement).value);
  const leave = () => {
    element.correcting = null;
  };
  return html`<select aria-label=${label} @change=${changed} @blur=${leave}>${options.map(
    ({ value, text }) => html`<option value=${value} .selected=${live(value === chosen)}>${text}</option>`,
  )}</select>`;
}

import { html, nothing, render } from 'lit';
import type { ChartView } from '../../view/view.ts';
import type { CellState } from '../../workbook/engineTypes.ts';
import type { SnapshotCell } from '../../workbook/messages.ts';
import { staticControl } from '../controls/controlView.ts';
import { heldUpBy } from '../graph.ts';
import { chartFigure, drawPicture, type Plot } from './chart.ts';
import { showsEarlier, troubleOf } from './earlier.ts';
import { lighten } from './lighter.ts';
import { opening, type ResultTools, unplacedControls } from './result.ts';
import { type Drawing, IN_SHORT, ONLY_LIVE, showable } from './showable.ts';

/** Width charts are drawn at for a page that cannot draw them again: between those of a phone and of a sheet (share.css). */
export const PAGE_WIDTH = 440;

function lightPicture(view: ChartView, plot: Plot): Element {
  const drawn = drawPicture(view, plot, PAGE_WIDTH);
  for (const svg of [drawn, ...drawn.querySelectorAll('svg')]) if (svg.localName === 'svg') lighten(svg);
  return drawn;
}

const drawingFor = (plot: Plot, ownerOf: ResultTools['ownerOf']): Drawing => {
  const drawing: Drawing = {
    job: (view) => showable(view.latest ?? view.before, drawing),
    chart: (view) => chartFigure(view, lightPicture(view, plot)),
    control: (control) => {
      const owner = ownerOf(control);
      return owner
        ? staticControl(owner.entry.control, owner.entry.value)
        : staticControl(control, control.value);
    },
  };
  return drawing;
};

/** Lit leaves comments to find its places again, and templates their indents; a static page has no use for either. */
function withoutTraces(root: Node): void {
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_COMMENT | NodeFilter.SHOW_TEXT);
  const nodes: Node[] = [];
  while (walker.nextNode()) nodes.push(walker.currentNode);
  for (const node of nodes) {
    if (node.nodeType === Node.COMMENT_NODE) node.parentNode!.removeChild(node);
    else if (!node.parentElement?.closest('pre')) node.nodeValue = node.nodeValue!.replace(/\n\s+/g, '\n');
  }
}

/** What only a live page can do: steps to try, explanations that open, buttons that lead to a cell. Their words stay. */
function withoutTools(root: Element): void {
  for (const tool of root.querySelectorAll(`.${ONLY_LIVE}, [popover]`)) tool.remove();
  for (const button of root.querySelectorAll('button')) button.replaceWith(...button.childNodes);
}

/** The page has one title, which is not in its cells: theirs are headings under it. */
function withoutTitles(root: Element): void {
  for (const title of root.querySelectorAll('h1')) {
    const heading = document.createElement('h2');
    heading.append(...title.childNodes);
    title.replaceWith(heading);
  }
}

/** Says of a cell that failed or waits that its result is an earlier one, that there is none, or what it asks for. */
function earlierNote(state: CellState, waitsFor: string | null): unknown {
  if (state.phase !== 'failed' && state.phase !== 'waiting') return nothing;
  if (state.problem?.notYet) return html`<p class="request">${troubleOf(state, null)}</p>`;
  const word = showsEarlier(state) ? 'Earlier result.' : 'No result.';
  return html`<p class="earlier-note"><strong>${word}</strong> ${troubleOf(state, waitsFor)}</p>`;
}

/** Takes the parts of the short answer out of a drawn cell, each with the note on the cell if there is one. */
function takeOutShort(page: Element): string {
  const note = page.querySelector(':scope > .earlier-note, :scope > .request');
  const parts = [...page.querySelectorAll(`.${IN_SHORT}`)];
  for (const part of parts) part.remove();
  if (parts.length > 0 && note) parts.unshift(note);
  return parts.map((part) => part.outerHTML).join('\n');
}

/**
 * A cell's result as HTML that needs no script: pictures as SVG, controls as label and value. `waitsFor` is the
 * cell that holds it up, if any.
 */
function snapshotOf(
  state: CellState,
  waitsFor: string | null,
  plot: Plot,
  ownerOf: ResultTools['ownerOf'],
): SnapshotCell {
  const drawing = drawingFor(plot, ownerOf);
  const controls = unplacedControls(state).map(({ control, value }) => staticControl(control, value));
  const page = document.createElement('div');
  const parts = opening(state.shown);
  render(
    html`${earlierNote(state, waitsFor)}
      <div class="result ${showsEarlier(state) ? 'earlier' : ''}">${showable(parts.opening, drawing)}${controls}${showable(parts.rest, drawing)}</div>`,
    page,
  );
  withoutTools(page);
  withoutTitles(page);
  withoutTraces(page);
  return { name: state.name, inShort: takeOutShort(page), html: page.innerHTML };
}

/** What each cell of a workbook shows, for the share page. */
export function snapshotsOf(
  states: readonly CellState[],
  plot: Plot,
  ownerOf: ResultTools['ownerOf'],
): SnapshotCell[] {
  const byName = new Map(states.map((state) => [state.name, state]));
  return states.map((state) => snapshotOf(state, heldUpBy(byName, state), plot, ownerOf));
}

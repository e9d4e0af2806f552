import { html, render } from 'lit';
import type { CellState } from '../../workbook/engineTypes.ts';
import type { SnapshotCell } from '../../workbook/messages.ts';
import { staticControl } from '../controls/controlView.ts';
import { chartFigure, drawPicture, type Plot } from './chart.ts';
import { opening, type ResultTools, unplacedControls } from './result.ts';
import { type Drawing, showable } from './showable.ts';

/** Width charts are drawn at for a page that cannot draw them again. */
const PAGE_WIDTH = 680;

const drawingFor = (plot: Plot, ownerOf: ResultTools['ownerOf']): Drawing => ({
  chart: (view) => chartFigure(view, drawPicture(view, plot, PAGE_WIDTH)),
  control: (control) => {
    const owner = ownerOf(control);
    return owner
      ? staticControl(owner.entry.control, owner.entry.value)
      : staticControl(control, control.value);
  },
});

/** Lit leaves comments to find its places again; a static page has no use for them. */
function withoutComments(root: Node): void {
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_COMMENT);
  const comments: Node[] = [];
  while (walker.nextNode()) comments.push(walker.currentNode);
  for (const comment of comments) comment.parentNode!.removeChild(comment);
}

/** A cell's result as HTML that needs no script: pictures as SVG, controls as label and value. */
export function snapshotOf(state: CellState, plot: Plot, ownerOf: ResultTools['ownerOf']): SnapshotCell {
  const drawing = drawingFor(plot, ownerOf);
  const controls = unplacedControls(state).map(({ control, value }) => staticControl(control, value));
  const page = document.createElement('div');
  const parts = opening(state.shown);
  render(
    html`<div class="result">${showable(parts.opening, drawing)}${controls}${showable(parts.rest, drawing)}</div>`,
    page,
  );
  withoutComments(page);
  return { name: state.name, html: page.innerHTML };
}

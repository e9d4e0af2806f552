import { html, nothing } from 'lit';
import { type Control, isControl } from '../../view/controls.ts';
import type {
  ChartView,
  Figure,
  FiguresView,
  JobView,
  NoticeView,
  StackView,
  View,
} from '../../view/view.ts';
import { isView } from '../../view/view.ts';
import { inspect, plain } from './inspect.ts';
import { DEEPEST } from './partsOf.ts';
import { markdown, proseView } from './prose.ts';
import { tableView } from './table.ts';

/** The things that look different on the live page and on the static one. */
export interface Drawing {
  chart(view: ChartView): unknown;
  control(control: Control): unknown;
  job(view: JobView): unknown;
}

/** Class of the parts of the short answer. */
export const IN_SHORT = 'in-short';
/** Class of the parts that a share page leaves out. */
export const ONLY_LIVE = 'only-live';

const NOTICE_WORD = { note: 'Note', caution: 'Caution', problem: 'Problem', good: 'Good' } as const;

const unit = (text?: string) => (text ? html` <span class="unit">${plain(text)}</span>` : nothing);

const headline = (figure: Figure) => html`<div class="headline ${figure.tone ?? 'plain'}">
  <dt>${plain(figure.label)}</dt>
  <dd>
    <div class="number">${plain(figure.value)}${unit(figure.unit)}</div>
    ${figure.range ? html`<div class="range">${plain(figure.range)}</div>` : nothing}
    ${figure.note ? html`<div class="remark">${plain(figure.note)}</div>` : nothing}
  </dd>
</div>`;

const figuresView = (view: FiguresView) => html`<dl class="figures">${view.figures.map(headline)}</dl>`;

const noticeView = (view: NoticeView) => html`<div class="notice ${view.tone}" role="note">
  <div><span class="notice-tone">${NOTICE_WORD[view.tone] ?? 'Note'}</span><span class="notice-title">${plain(
    view.title,
  )}</span></div>
  ${view.body ? html`<div class="notice-body">${markdown(plain(view.body))}</div>` : nothing}
</div>`;

const isSwitch = (item: unknown) => isControl(item) && item.control === 'toggle';

function stacked(items: readonly unknown[], drawing: Drawing, depth: number, kind = '') {
  if (depth >= DEEPEST) throw new TypeError(`lists inside lists, more than ${DEEPEST} deep`);
  const switches = items.every(isSwitch) ? 'switches' : '';
  return html`<div class="stack ${kind} ${switches}">${items.map((item) => html`<div>${within(item, drawing, depth + 1)}</div>`)}</div>`;
}

const kindOf = ({ inShort, onlyLive }: StackView) => (inShort ? IN_SHORT : onlyLive ? ONLY_LIVE : '');

function stackView(view: StackView, drawing: Drawing, depth: number) {
  const items = stacked(view.items, drawing, depth, kindOf(view));
  return view.folded === undefined
    ? items
    : html`<details><summary>${plain(view.folded)}</summary>${items}</details>`;
}

function drawView(view: View, drawing: Drawing, depth: number): unknown {
  switch (view.view) {
    case 'chart':
      return drawing.chart(view);
    case 'table':
      return tableView(view);
    case 'figures':
      return figuresView(view);
    case 'prose':
      return proseView(plain(view.markdown));
    case 'notice':
      return noticeView(view);
    case 'stack':
      return stackView(view, drawing, depth);
    case 'job':
      return drawing.job(view);
    default:
      throw new TypeError(`there is no view of the kind ${inspect((view as { view: unknown }).view)}`);
  }
}

function draw(value: unknown, drawing: Drawing, depth: number): unknown {
  if (value === null || value === undefined) return nothing;
  if (typeof value === 'string') return proseView(value);
  if (isControl(value)) return drawing.control(value);
  if (isView(value)) return drawView(value, drawing, depth);
  if (Array.isArray(value) && value.some((item) => typeof item === 'object' && item !== null)) {
    return stacked(value, drawing, depth);
  }
  if (typeof value === 'object') return html`<div class="inspection">${inspect(value)}</div>`;
  return html`<span class="plain-value">${inspect(value)}</span>`;
}

/** Why a result could not be drawn, in its place. */
export const drawingFault = (error: unknown) =>
  noticeView({
    view: 'notice',
    tone: 'problem',
    title: 'This result cannot be drawn',
    body: `The cell ran, but drawing what it shows failed: ${error instanceof Error ? error.message : inspect(error)}`,
  });

function within(value: unknown, drawing: Drawing, depth: number): unknown {
  try {
    return draw(value, drawing, depth);
  } catch (error) {
    return drawingFault(error);
  }
}

/** What a cell shows, as something Lit can render. A fault stays in the part of the result that has it. */
export const showable = (value: unknown, drawing: Drawing): unknown => within(value, drawing, 0);

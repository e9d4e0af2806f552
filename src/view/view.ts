import type * as PlotModule from '@observablehq/plot';
import type { Control } from './controls.ts';

/**
 * What a cell shows, as plain data. Nothing here touches a document, so a cell runs anywhere; the page (or the
 * share-page writer) draws it. A cell's default export may be a view, a control, a string (read as prose), an
 * array of these, or null for nothing.
 */
export type View = ChartView | TableView | FiguresView | ProseView | NoticeView | StackView | JobView;

/** All that a cell may show: views, controls, plain values, and lists of them one below another. */
export type Showable = View | Control | string | number | null | undefined | readonly Showable[];

/** What a chart is drawn with: the page owns document, width and theme; the chart owns only its data. */
export interface DrawContext {
  Plot: typeof PlotModule;
  document: Document;
  /** CSS pixels available. */
  width: number;
}

/** A picture that the page draws when it has room and time for it. */
export interface ChartView {
  view: 'chart';
  title: string;
  /** What is to be seen, in one or two sentences: beneath the picture, and with its name for those who do not see it. */
  summary: string;
  draw(context: DrawContext): SVGSVGElement | HTMLElement;
  /** The numbers behind the picture, offered as a table; a function works them out when they are to be shown. */
  data?: TableView | (() => TableView);
  /** Nothing in the picture listens or is kept by whoever drew it, so the page may turn an earlier one into it. */
  still?: true;
  /** For a picture that follows a control without being drawn anew. */
  moving?: Moving;
  /**
   * Points that the reader may drag up and down, in the order of the circles in the group of class `handles`; null for
   * one that stays. The y scale of the picture tells their value.
   */
  handles?: readonly (Handle | null)[];
}

/** What of a picture moves, and what stands still meanwhile. */
export interface Moving {
  /** Tells what stands still: pictures of the same frame differ in nothing but what moves. */
  frame(context: Pick<DrawContext, 'width'>): string;
  /** Turns a picture of the same frame, drawn by an earlier view, into that of this one. */
  move(drawn: SVGSVGElement, context: Pick<DrawContext, 'width'>): void;
}

/** A point of a picture that stands for a number in a control. */
export interface Handle {
  /** What it is: 'Reading at 240 W'. */
  label: string;
  value: number;
  unit: string;
  min: number;
  max: number;
  step: number;
  control: Control;
  /** The value of the control with the point at this value. */
  moved(value: number): unknown;
}

/** A column of a table. */
export interface Column {
  /** Field of the row. */
  key: string;
  heading: string;
  unit?: string;
  align?: 'left' | 'right';
}

/** Cell values: text is shown as given; numbers are for the writer to format before they get here. */
export type TableRow = Record<string, string | null> & {
  tone?: 'muted' | 'strong' | null;
};

/** A table as text; numbers are formatted before they get here. */
export interface TableView {
  view: 'table';
  caption: string;
  columns: Column[];
  rows: TableRow[];
  /** Shown beneath. */
  note?: string;
}

/** One number that matters, large, with what belongs to it. */
export interface Figure {
  label: string;
  value: string;
  unit?: string;
  /** The 95 % interval or other range, already formatted. */
  range?: string;
  note?: string;
  tone?: 'first' | 'second' | 'plain';
}

/** A row of headline numbers. */
export interface FiguresView {
  view: 'figures';
  figures: Figure[];
}

/**
 * Markdown: headings, lists, emphasis, code, tables; no raw HTML, no links out. `[words](cell:name)` leads to a cell, and
 * `[word](term:name "explanation")` explains a word (see `term`).
 */
export interface ProseView {
  view: 'prose';
  markdown: string;
}

/** Something the reader has to be told apart from the text. */
export interface NoticeView {
  view: 'notice';
  tone: 'note' | 'caution' | 'problem' | 'good';
  title: string;
  /** Markdown. */
  body: string;
}

/** Things one below another, folded or not. */
export interface StackView {
  view: 'stack';
  items: Showable[];
  /** Folded under this summary line when given. */
  folded?: string;
  /** Belongs to the short answer: a share page shows it before everything else. */
  inShort?: true;
  /** Of use in the workbook alone: a share page leaves it out. */
  onlyLive?: true;
}

/** What a long computation has so far. */
export interface JobStep {
  /** Share of the work that is done, 0 to 1. */
  share: number;
  /** How far it is, in a few words. */
  text: string;
  /** What there is to show; asked for when it is to be shown. */
  shown(): Showable;
}

/**
 * A computation that takes long: the page makes it step by step, between other things, tells how far it is and can
 * cancel it. Each step should take a few milliseconds. It begins anew when its cell runs again.
 */
export interface JobView {
  view: 'job';
  /** What is computed: 'Draws until the figures have settled'. */
  label: string;
  /** When it begins: when the reader has come to it and rests, or asks for it. */
  begin: 'at-rest' | 'asked';
  steps(): Iterable<JobStep>;
  /** What is shown before the first step. */
  before: Showable;
  /** True when that is of this run already: it takes the place of what an earlier run came to. */
  live?: true;
  /** What was shown last; the page puts it here, for a page that cannot compute. */
  latest?: Showable;
}

/** Whether a value is a view; cells show anything. */
export const isView = (value: unknown): value is View =>
  typeof value === 'object' && value !== null && typeof (value as { view?: unknown }).view === 'string';

/** A picture with its title, its summary in words and the numbers behind it. */
export const chart = (spec: Omit<ChartView, 'view'>): ChartView => ({
  view: 'chart',
  ...spec,
});
/** A table of texts; numbers are formatted before they get here. */
export const table = (spec: Omit<TableView, 'view'>): TableView => ({
  view: 'table',
  ...spec,
});
/** The numbers behind a picture; null when it comes with none. */
export const numbersBehind = ({ data }: ChartView): TableView | null =>
  typeof data === 'function' ? data() : (data ?? null);

/** A row of headline numbers. */
export const figures = (...items: Figure[]): FiguresView => ({
  view: 'figures',
  figures: items,
});
/** The body is Markdown and may be indented as the code around it. */
export const notice = (tone: NoticeView['tone'], title: string, body = ''): NoticeView => ({
  view: 'notice',
  tone,
  title,
  body: outdented(body).trim(),
});
/** Things shown one below the other. */
export const stack = (...items: Showable[]): StackView => ({
  view: 'stack',
  items,
});
/** Things shown one below the other that are a part of the short answer: a share page shows it before everything else. */
export const inShort = (...items: Showable[]): StackView => ({ view: 'stack', items, inShort: true });
/** Things shown one below the other that a share page leaves out: what is to be tried in the workbook. */
export const onlyLive = (...items: Showable[]): StackView => ({ view: 'stack', items, onlyLive: true });
/** Things folded under a summary line until the reader opens it. */
export const folded = (summary: string, ...items: Showable[]): StackView => ({
  view: 'stack',
  items,
  folded: summary,
});

/** A computation that takes long, made by the page step by step. */
export const job = (spec: Omit<JobView, 'view' | 'latest'>): JobView => ({ view: 'job', ...spec });

/** Stands for a value while the indentation of the text around it is taken away. */
const SLOT = '\u0000';

/**
 * Markdown with values put in; common indentation is removed so that it can be indented in a cell. Only the text
 * as written counts for that: a value of several lines is put in as it is.
 */
export function prose(parts: TemplateStringsArray, ...values: unknown[]): ProseView {
  const text = outdented(parts.join(SLOT)).split(SLOT);
  const markdown = text.reduce((all, part, i) => all + String(values[i - 1]) + part);
  return { view: 'prose', markdown: markdown.trim() };
}

function outdented(text: string): string {
  const [first, ...rest] = text.split('\n');
  const depth = (line: string) => /^ */.exec(line)![0].length;
  // The first line follows the backtick directly, so it says nothing about indentation.
  const common = Math.min(...rest.filter((line) => line.trim() !== '').map(depth));
  return [first, ...rest.map((line) => line.slice(Math.min(common, depth(line))))].join('\n');
}

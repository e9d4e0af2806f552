import type * as PlotModule from '@observablehq/plot';
import type { Claim } from '../physiology/methods/method.ts';
import { COLOUR, claimColour, claimName, claimSymbol, isNarrow } from './house.ts';

/** What a row of methods needs to be placed and named. */
export interface NamedRow {
  name: string;
  claim: Claim;
  /** Written at the right end of the row. */
  value: string;
  /** Second, quieter piece of the value. */
  range: string;
  /** True for an answer that too few draws confirm: written as quietly as a refusal. */
  quiet?: boolean;
}

interface Placed<R> {
  row: R;
  /** Pixels from the top to the row's base line. */
  y: number;
}

/** Where rows and their headings lie, px from the top, and what room names need beside them. */
export interface RowLayout<R> {
  placed: Placed<R>[];
  headings: { claim: Claim; text: string; y: number }[];
  bottom: number;
  marginLeft: number;
  marginRight: number;
  narrow: boolean;
  width: number;
}

const HEADING = 30;
const NAME_LINE = 17;
/** Room at both sides where names stand above the rows: half a mark at the end of the range. */
const BARE = 14;
/** Width of a letter of the charts' type, pixels: a little above the mean, so that names never run into bars. */
export const LETTER = 6.6;

/** Room for values grows by so many letters at a time: a value that gets a digit more does not move the whole picture. */
const VALUE_STEP = 4;

const valueText = (row: NamedRow) => (row.range === '' ? row.value : `${row.value}  ${row.range}`);
const longest = (texts: readonly string[]) => Math.max(0, ...texts.map((text) => text.length));

/** Names beside the rows where they leave half the width to the picture; else each on a line above its row. */
function margins(rows: readonly NamedRow[], width: number): { left: number; right: number; narrow: boolean } {
  const left = LETTER * longest(rows.map((row) => row.name)) + 14;
  const right = LETTER * VALUE_STEP * Math.ceil(longest(rows.map(valueText)) / VALUE_STEP) + 14;
  const narrow = isNarrow(width) || left + right > width / 2;
  return narrow ? { left: BARE, right: BARE, narrow } : { left, right, narrow };
}

/** Place rows under one heading per claim, in pixels, so that no label ever lands on another. */
export function layRows<R extends NamedRow>(
  rows: readonly R[],
  { top, width, rowHeight }: { top: number; width: number; rowHeight: number },
): RowLayout<R> {
  const { left, right, narrow } = margins(rows, width);
  const step = narrow ? rowHeight + NAME_LINE : rowHeight;
  const placed: Placed<R>[] = [];
  const headings: RowLayout<R>['headings'] = [];
  let y = top;
  for (const claim of ['LT1', 'LT2', 'MLSS'] as const) {
    const group = rows.filter((row) => row.claim === claim);
    if (group.length === 0) continue;
    y += HEADING;
    headings.push({
      claim,
      text: claim === 'MLSS' ? claimName(claim) : `${claimName(claim)} (${claim})`,
      y: y - 8,
    });
    for (const row of group) {
      y += step;
      placed.push({ row, y: y - 8 });
    }
  }
  return { placed, headings, bottom: y, marginLeft: left, marginRight: right, narrow, width };
}

/** Names at the left end of their rows, values at the right, px from the top. */
export const rowLabels = <R extends NamedRow>(layout: RowLayout<R>, rowHeight: number): RowLabel[] =>
  layout.placed.map(({ row, y }) => ({
    name: row.name,
    // Where the name takes the whole line the range is left to the bar and the table.
    value:
      layout.narrow && LETTER * (row.name.length + valueText(row).length + 2) > layout.width
        ? row.value
        : valueText(row),
    y: layout.narrow ? y - rowHeight : y - 4,
    ink: row.quiet ? COLOUR.muted : COLOUR.ink,
  }));

/** What stands at both ends of a row. */
export interface RowLabel {
  name: string;
  value: string;
  y: number;
  ink: string;
}

/** Pixels between the values and the right edge of the picture. */
export const VALUE_EDGE = 2;

/** Headings, names, values and the thin lines between rows. */
export function rowTexts<R extends NamedRow>(
  Plot: typeof PlotModule,
  layout: RowLayout<R>,
  rowHeight: number,
): PlotModule.Markish[] {
  const labels = rowLabels(layout, rowHeight);
  const look = { y: 'y', fill: 'ink' };
  return [
    ...rowHeadings(Plot, layout),
    Plot.text(labels, {
      ...look,
      frameAnchor: 'left',
      textAnchor: 'start',
      dx: -layout.marginLeft,
      text: 'name',
    }),
    Plot.text(labels, {
      ...look,
      frameAnchor: 'right',
      textAnchor: 'end',
      dx: layout.marginRight - VALUE_EDGE,
      text: 'value',
      fontVariant: 'tabular-nums',
    }),
  ];
}

/** Headings, and the thin lines between rows. */
export function rowHeadings<R extends NamedRow>(
  Plot: typeof PlotModule,
  { placed, headings, marginLeft, marginRight }: RowLayout<R>,
): PlotModule.Markish[] {
  return [
    Plot.ruleY(placed, {
      y: (p) => p.y + 8,
      stroke: COLOUR.rule,
      insetLeft: -marginLeft,
      insetRight: -marginRight,
    }),
    Plot.dot(headings, {
      y: 'y',
      frameAnchor: 'left',
      dx: -marginLeft + 6,
      r: 5,
      symbol: (h: { claim: Claim }) => claimSymbol(h.claim),
      fill: (h: { claim: Claim }) => claimColour(h.claim),
    }),
    Plot.text(headings, {
      frameAnchor: 'left',
      textAnchor: 'start',
      dx: -marginLeft + 17,
      y: 'y',
      text: 'text',
      fontWeight: 600,
      fill: COLOUR.ink,
    }),
  ];
}

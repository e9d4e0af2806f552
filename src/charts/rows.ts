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

const valueText = (row: NamedRow) => (row.range === '' ? row.value : `${row.value}  ${row.range}`);
const longest = (texts: readonly string[]) => LETTER * Math.max(0, ...texts.map((text) => text.length));

/** Names beside the rows where they leave half the width to the picture; else each on a line above its row. */
function margins(rows: readonly NamedRow[], width: number): { left: number; right: number; narrow: boolean } {
  const left = longest(rows.map((row) => row.name)) + 14;
  const right = longest(rows.map(valueText)) + 14;
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

/** Headings, names, values and the thin lines between rows. */
export function rowTexts<R extends NamedRow>(
  Plot: typeof PlotModule,
  layout: RowLayout<R>,
  rowHeight: number,
): PlotModule.Markish[] {
  const { placed, headings, marginLeft, marginRight, narrow } = layout;
  const nameY = (p: Placed<R>) => (narrow ? p.y - rowHeight : p.y - 4);
  const left = { frameAnchor: 'left', textAnchor: 'start', dx: -marginLeft } as const;
  const right = { frameAnchor: 'right', textAnchor: 'end', dx: marginRight - 2 } as const;
  const ink = (p: Placed<R>) => (p.row.quiet ? COLOUR.muted : COLOUR.ink);
  const full = { insetLeft: -marginLeft, insetRight: -marginRight };
  return [
    Plot.ruleY(placed, { y: (p) => p.y + 8, stroke: COLOUR.rule, ...full }),
    Plot.dot(headings, {
      y: 'y',
      frameAnchor: 'left',
      dx: -marginLeft + 6,
      r: 5,
      symbol: (h: { claim: Claim }) => claimSymbol(h.claim),
      fill: (h: { claim: Claim }) => claimColour(h.claim),
    }),
    Plot.text(headings, {
      ...left,
      dx: -marginLeft + 17,
      y: 'y',
      text: 'text',
      fontWeight: 600,
      fill: COLOUR.ink,
    }),
    Plot.text(placed, { ...left, y: nameY, text: (p: Placed<R>) => p.row.name, fill: ink }),
    Plot.text(placed, {
      ...right,
      y: nameY,
      // Where the name takes the whole line the range is left to the bar and the table.
      text: (p: Placed<R>) =>
        narrow && LETTER * (p.row.name.length + valueText(p.row).length + 2) > layout.width
          ? p.row.value
          : valueText(p.row),
      fill: ink,
      fontVariant: 'tabular-nums',
    }),
  ];
}

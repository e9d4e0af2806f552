import type { Claim } from '../physiology/methods/method.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { COLOUR, picture, pictured } from './house.ts';
import { layRows, rowTexts } from './rows.ts';

/** One field of the map: how strongly it is shaded, −1 to 1 by sign, and what stands in it. */
interface MapField {
  shade: number;
  text: string;
}

interface MapRow {
  name: string;
  claim: Claim;
  /** One for each column; null where there is nothing to say. */
  fields: readonly (MapField | null)[];
}

interface MethodMapData {
  columns: readonly string[];
  /** What the columns are, written above them. */
  columnTitle: string;
  rows: readonly MapRow[];
  title: string;
  summary: string;
  data?: TableView;
}

const ROW = 26;
/** Strongest shading that dark text is still read on. */
const STRONGEST = 0.5;
const TOP = 34;
/** Width of a character of the headings, pixels: they are signs and digits, which are wider than letters. */
const DIGIT = 8.3;

/** Methods against columns, each field with its number and shaded by it: what moves which answer, at one sight. */
export const methodMap = (spec: MethodMapData): ChartView => pictured(spec, drawMap);

function drawMap(context: DrawContext, spec: MethodMapData): SVGSVGElement {
  const { Plot, width } = context;
  const { columns, title, summary } = spec;
  const rows = spec.rows.map((row) => ({ ...row, value: '', range: '' }));
  const flat = layRows(rows, { top: TOP, width, rowHeight: ROW });
  const room = (width - flat.marginLeft - flat.marginRight) / columns.length;
  // Headings that are wider than their column are set upright.
  const longest = DIGIT * Math.max(...columns.map((column) => column.length));
  const upright = longest > room - 4;
  const top = upright ? TOP + longest : TOP;
  const layout = layRows(rows, { top, width, rowHeight: ROW });
  const base = layout.narrow ? 2 : 4;
  const fields = layout.placed.flatMap(({ row, y }) =>
    row.fields.flatMap((field, i) =>
      field === null ? [] : [{ ...field, i, top: y - ROW + base + 8, bottom: y + base }],
    ),
  );
  const size = Math.min(12, Math.max(8, (room - 4) / 3.4));
  return picture(context, {
    title,
    summary,
    height: layout.bottom + 8,
    marginLeft: layout.marginLeft,
    marginRight: layout.marginRight,
    marginTop: 0,
    marginBottom: 0,
    x: { domain: [0, columns.length], axis: null },
    y: { type: 'identity', axis: null },
    marks: [
      Plot.text([spec.columnTitle], {
        frameAnchor: 'top-left',
        textAnchor: 'start',
        dy: 10,
        fill: COLOUR.muted,
      }),
      Plot.text(columns, {
        x: (_, i) => i + 0.5,
        y: top - 4,
        text: (column: string) => column,
        textAnchor: upright ? 'start' : 'middle',
        rotate: upright ? -90 : 0,
        fill: COLOUR.ink,
      }),
      rowTexts(Plot, layout, ROW),
      Plot.rect(fields, {
        x1: 'i',
        x2: (field) => field.i + 1,
        y1: 'top',
        y2: 'bottom',
        insetLeft: 1,
        insetRight: 1,
        fill: (field) => (field.shade < 0 ? COLOUR.first : COLOUR.second),
        fillOpacity: (field) => STRONGEST * Math.min(1, Math.abs(field.shade)),
      }),
      Plot.text(fields, {
        x: (field) => field.i + 0.5,
        y: (field) => (field.top + field.bottom) / 2,
        text: 'text',
        fontSize: size,
        fontVariant: 'tabular-nums',
        fill: COLOUR.ink,
      }),
    ],
  });
}

import type { CellText, WorkbookDocument } from '../workbook/document.ts';
import { FORMAT, newId } from './workbookDocument.ts';

/** A workbook that comes with Hourline. */
export interface Shipped {
  name: string;
  title: string;
  cells: CellText[];
}

const texts = (found: Record<string, string>): CellText[] =>
  Object.entries(found)
    .map(([file, text]) => ({ name: file.slice(file.lastIndexOf('/') + 1), text }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));

const athlete = texts(
  import.meta.glob<string>('../../cells/athlete/*.ts', { query: '?raw', import: 'default', eager: true }),
);
const runner = texts(
  import.meta.glob<string>('../../cells/athlete-runner/*.ts', {
    query: '?raw',
    import: 'default',
    eager: true,
  }),
);

/** The runner's workbook is the same but for the cells that say who was tested and how. */
const replacedBy = (others: CellText[], cell: CellText): CellText =>
  others.find((other) => other.name === cell.name) ?? cell;

export const SHIPPED: readonly Shipped[] = [
  { name: 'cyclist', title: 'Invented cyclist', cells: athlete },
  {
    name: 'runner',
    title: 'Invented half-marathon runner',
    cells: athlete.map((cell) => replacedBy(runner, cell)),
  },
];

export const shippedByName = (name: string | null): Shipped | null =>
  SHIPPED.find((shipped) => shipped.name === name) ?? null;

/** A new document of the reader's own that starts from a shipped workbook. */
export function startFrom(shipped: Shipped): WorkbookDocument {
  return {
    format: FORMAT,
    id: newId(),
    title: shipped.title,
    shipped: shipped.name,
    cells: shipped.cells,
    settings: {},
    changed: new Date().toISOString(),
  };
}

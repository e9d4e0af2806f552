import type { CellText, WorkbookDocument } from '../workbook/document.ts';
import { FORMAT, newId } from './workbookDocument.ts';

/** A workbook that comes with Hourline. */
export interface Shipped {
  name: string;
  title: string;
  /** What it starts out with, in a few words. */
  about: string;
  cells(): Promise<CellText[]>;
}

/** By the number at the front of each name: 100 comes after 90. */
const byNumber = new Intl.Collator('en', { numeric: true });

/** Cells in the order that the numbers in their names give. */
export const inOrder = (cells: readonly CellText[]): CellText[] =>
  cells.toSorted((a, b) => byNumber.compare(a.name, b.name));

/** The files of a glob import as cells in order, named by the last part of their paths. */
export const texts = (found: Record<string, string>): CellText[] =>
  inOrder(
    Object.entries(found).map(([file, text]) => ({ name: file.slice(file.lastIndexOf('/') + 1), text })),
  );

/** The cells of the step-test workbook: part of the first script, since Hourline opens on them. */
export const athlete = texts(
  import.meta.glob<string>('../../cells/athlete/*.ts', { query: '?raw', import: 'default', eager: true }),
);
/** The other workbooks come in a script of their own, when one of them is opened. */
const later = (name: keyof Awaited<typeof import('./laterWorkbooks.ts')>['LATER']) => async () =>
  (await import('./laterWorkbooks.ts')).LATER[name];

const INVENTED = 'invented readings';

/** Every workbook that comes with Hourline, in the order of the dialog. */
export const SHIPPED: readonly Shipped[] = [
  { name: 'cyclist', title: 'Step test, cycling', about: INVENTED, cells: async () => athlete },
  { name: 'own', title: 'Your own test', about: 'an empty table', cells: later('own') },
  { name: 'runner', title: 'Step test, running', about: INVENTED, cells: later('runner') },
  { name: 'methods', title: 'Methods, one by one', about: INVENTED, cells: later('methods') },
  {
    name: 'lesson',
    title: 'How methods differ: a lesson',
    about: 'simulated athletes',
    cells: later('lesson'),
  },
  {
    name: 'lactate-minimum',
    title: 'Lactate minimum test',
    about: INVENTED,
    cells: later('lactate-minimum'),
  },
  { name: 'reverse', title: 'Reverse test', about: INVENTED, cells: later('reverse') },
  { name: 'bouts', title: 'Constant-load bouts', about: INVENTED, cells: later('bouts') },
];

/** The shipped workbook of a name; null for a name that none has. */
export const shippedByName = (name: string | null): Shipped | null =>
  SHIPPED.find((shipped) => shipped.name === name) ?? null;

/** A new document of the reader's own that starts from a shipped workbook. */
export async function startFrom(shipped: Shipped): Promise<WorkbookDocument> {
  return {
    format: FORMAT,
    id: newId(),
    title: shipped.title,
    shipped: shipped.name,
    cells: await shipped.cells(),
    settings: {},
    changed: new Date().toISOString(),
  };
}

import type { WorkbookDocument } from '../../../src/workbook/document.ts';

/** The id of the workbook below. */
export const ID = '0123456789abcdef0123456789abcdef';

/** A workbook of one cell, changed as a test likes. */
export const workbook = (change: Partial<WorkbookDocument> = {}): WorkbookDocument => ({
  format: 'hourline-workbook-1',
  id: ID,
  title: 'Step test',
  shipped: null,
  cells: [{ name: 'one.ts', text: 'export default 1;\n' }],
  settings: {},
  changed: '2026-02-03T04:05:06.000Z',
  ...change,
});

/** One cell as kept: `name` ends in .ts and is what other cells import (`./curve.ts`). */
export interface CellText {
  name: string;
  text: string;
}

/**
 * A control the reader moved. It is kept while the control still starts from `from` (a JSON text): when the code
 * changes the starting value, the code wins.
 */
export interface Setting {
  value: unknown;
  from: string;
}

/** A workbook as stored, shared and opened: the only durable thing there is. */
export interface WorkbookDocument {
  format: 'hourline-workbook-1';
  /** Random; names the record in the library. */
  id: string;
  title: string;
  /** Name of the shipped workbook it started from, so that cells can be reset to it; null for none. */
  shipped: string | null;
  cells: CellText[];
  /** By `cell.ts#exportName`. */
  settings: Record<string, Setting>;
  /** ISO date-time of the last change. */
  changed: string;
}

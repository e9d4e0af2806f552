import type { CellText, Setting, WorkbookDocument } from '../../workbook/document.ts';
import type { StoredWorkbook } from '../database.ts';
import { readCells, readSettings } from '../port.ts';
import { FORMAT, newId, readDocument } from '../workbookDocument.ts';

/** A record of the database that cannot be read as a workbook. */
export interface Damaged {
  id: string;
  /** The record as it is; undefined when the browser could not read it at all. */
  raw: unknown;
}

/** The record of a workbook that was asked for is damaged. */
export class DamagedError extends Error {
  override readonly name = 'DamagedError';
  readonly damaged: Damaged;

  constructor(damaged: Damaged) {
    super('the record of this workbook is damaged');
    this.damaged = damaged;
  }
}

type Fields = Record<string, unknown>;

const fieldsOf = (value: unknown): Fields =>
  typeof value === 'object' && value !== null ? (value as Fields) : {};

/** The record as a workbook, or null when it is damaged. Nothing in it is taken on trust. */
export function readRecord(raw: unknown): StoredWorkbook | null {
  const { id, document, revision, mayRun, deleted } = fieldsOf(raw);
  if (typeof id !== 'string' || !Number.isSafeInteger(revision)) return null;
  try {
    const stored = {
      document: readDocument(document, id, id),
      revision: revision as number,
      mayRun: mayRun === true,
    };
    return typeof deleted === 'string' ? { ...stored, deleted } : stored;
  } catch {
    return null;
  }
}

/** What can still be read of a damaged workbook, as a workbook of its own; null when there is no cell left. */
export function salvage(raw: unknown): WorkbookDocument | null {
  const document = fieldsOf(fieldsOf(raw).document);
  const given = Array.isArray(document.cells) ? document.cells : [];
  const cells = new Map<string, CellText>();
  for (const cell of given.flatMap((one) => readCells([one]) ?? [])) {
    if (!cells.has(cell.name)) cells.set(cell.name, cell);
  }
  if (cells.size === 0) return null;
  const settings = Object.entries(fieldsOf(document.settings)).map(
    ([place, setting]) => readSettings({ [place]: setting }) ?? {},
  );
  return {
    format: FORMAT,
    id: newId(),
    title: `${titleOf(raw)} (what could be read)`.slice(0, 200),
    shipped: typeof document.shipped === 'string' ? document.shipped : null,
    cells: [...cells.values()],
    settings: Object.assign({}, ...settings) as Record<string, Setting>,
    changed: new Date().toISOString(),
  };
}

/** The title a damaged record gives, or words in its place. */
export function titleOf(raw: unknown): string {
  const { title } = fieldsOf(fieldsOf(raw).document);
  return typeof title === 'string' && title.trim() !== '' ? title : 'A workbook without a title';
}

import type { CellText, Setting } from '../workbook/document.ts';
import {
  type FrameMessage,
  LIBRARY_NAMES,
  type LibraryName,
  type SnapshotCell,
} from '../workbook/messages.ts';

/**
 * Checks what the frame posts. Cells run in the frame and can use its port, so every message is hostile until it
 * has been read here: a fixed list of kinds, each rebuilt from checked parts, everything else refused. Sizes are
 * bounded so that a message cannot exhaust the host. (The bounds are our rule: far above any real workbook.)
 */
export const LIMITS = {
  cells: 500,
  nameLength: 100,
  cellLength: 1_000_000,
  workbookLength: 5_000_000,
  settings: 2_000,
  settingLength: 1_000_000,
  settingsLength: 5_000_000,
  depth: 12,
  htmlLength: 20_000_000,
};

const CELL_NAME = /^[\p{L}\p{N}_-][\p{L}\p{N}_.-]*\.ts$/u;

type Fields = Record<string, unknown>;

/** The message in a form that can be trusted to have its declared shape, or null. Its texts stay untrusted. */
export function readFrameMessage(data: unknown): FrameMessage | null {
  const fields = asFields(data);
  if (!fields) return null;
  switch (fields.kind) {
    case 'ready':
      return { kind: 'ready' };
    case 'library':
      return isLibraryName(fields.name) ? { kind: 'library', name: fields.name } : null;
    case 'changed':
      return readChanged(fields);
    case 'status':
      return readStatus(fields);
    case 'snapshot':
      return readSnapshot(fields);
    case 'pong':
      return isCount(fields.request) ? { kind: 'pong', request: fields.request } : null;
    default:
      return null;
  }
}

/** Cells with usable, different names and texts within bounds, or null. */
export function readCells(value: unknown): CellText[] | null {
  if (!Array.isArray(value) || value.length > LIMITS.cells) return null;
  const cells: CellText[] = [];
  let length = 0;
  for (const item of value) {
    const { name, text } = asFields(item) ?? {};
    if (!isCellName(name) || typeof text !== 'string' || text.length > LIMITS.cellLength) return null;
    length += text.length;
    cells.push({ name, text });
  }
  const names = new Set(cells.map((cell) => cell.name));
  return names.size === cells.length && length <= LIMITS.workbookLength ? cells : null;
}

/** Settings whose values are plain data within bounds, or null. */
export function readSettings(value: unknown): Record<string, Setting> | null {
  const fields = asFields(value);
  if (!fields) return null;
  const entries = Object.entries(fields);
  if (entries.length > LIMITS.settings) return null;
  const settings: [string, Setting][] = [];
  let left = LIMITS.settingsLength;
  for (const [place, item] of entries) {
    const { value: moved, from } = asFields(item) ?? {};
    const fits = place.length <= 2 * LIMITS.nameLength && isShortText(from, LIMITS.settingLength);
    const size = fits ? plainSize(moved) : null;
    if (!fits || size === null) return null;
    left -= place.length + from.length + size;
    settings.push([place, { value: moved, from }]);
  }
  return left >= 0 ? Object.fromEntries(settings) : null;
}

function readChanged(fields: Fields): FrameMessage | null {
  const cells = readCells(fields.cells);
  const settings = readSettings(fields.settings);
  const { revision, runs } = fields;
  if (!cells || !settings || !isCount(revision) || typeof runs !== 'boolean') return null;
  return { kind: 'changed', revision, runs, cells, settings };
}

function readStatus({ started, running, failed, waiting, cells }: Fields): FrameMessage | null {
  if (
    typeof started !== 'boolean' ||
    !isCount(running) ||
    !isCount(failed) ||
    !isCount(waiting) ||
    !isCount(cells)
  )
    return null;
  return { kind: 'status', started, running, failed, waiting, cells };
}

function readSnapshot(fields: Fields): FrameMessage | null {
  const { request, cells: given } = fields;
  if (!isCount(request) || !Array.isArray(given) || given.length > LIMITS.cells) return null;
  const cells: SnapshotCell[] = [];
  let length = 0;
  for (const item of given) {
    const { name, inShort, html } = asFields(item) ?? {};
    if (!isCellName(name) || typeof inShort !== 'string' || typeof html !== 'string') return null;
    length += inShort.length + html.length;
    cells.push({ name, inShort, html });
  }
  return length <= LIMITS.htmlLength ? { kind: 'snapshot', request, cells } : null;
}

const asFields = (value: unknown): Fields | null =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Fields) : null;

const isCount = (value: unknown): value is number => Number.isSafeInteger(value) && (value as number) >= 0;

const isShortText = (value: unknown, most: number): value is string =>
  typeof value === 'string' && value.length <= most;

const isCellName = (value: unknown): value is string =>
  isShortText(value, LIMITS.nameLength) && CELL_NAME.test(value);

const isLibraryName = (value: unknown): value is LibraryName =>
  (LIBRARY_NAMES as readonly unknown[]).includes(value);

/** Size of what JSON can hold, in characters; null when it cannot, is too deep (a circle is) or too long. */
function plainSize(value: unknown): number | null {
  let left = LIMITS.settingLength;
  const fits = (part: unknown, depth: number): boolean => {
    left -= typeof part === 'string' ? part.length + 1 : 1;
    if (left < 0 || depth > LIMITS.depth) return false;
    if (part === null || typeof part === 'string' || typeof part === 'boolean') return true;
    if (typeof part === 'number') return Number.isFinite(part);
    if (typeof part !== 'object') return false;
    if (Array.isArray(part)) return part.every((item) => fits(item, depth + 1));
    return Object.getPrototypeOf(part) === Object.prototype && fieldsFit(part, depth);
  };
  const fieldsFit = (part: object, depth: number) =>
    Object.entries(part).every(([key, item]) => {
      left -= key.length;
      return fits(item, depth + 1);
    });
  return fits(value, 0) ? LIMITS.settingLength - left : null;
}

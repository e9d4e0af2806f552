import { InputError } from '../base/inputError.ts';
import type { WorkbookDocument } from '../workbook/document.ts';
import { readCells, readSettings } from './port.ts';

/** The form of a workbook as it is kept and saved; a change of form gets another number. */
export const FORMAT = 'hourline-workbook-1';
const TITLE_LENGTH = 200;

/** Random, and available on pages served without encryption too (unlike crypto.randomUUID). */
export const newId = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join(
    '',
  );

/** The same workbook as a record of its own. */
export const copyOf = (document: WorkbookDocument, title: string): WorkbookDocument => ({
  ...document,
  id: newId(),
  title,
  changed: new Date().toISOString(),
});

/** A workbook from data of unknown origin, as a record of its own unless `id` is given. Throws InputError that says what is wrong with it. */
export function readDocument(data: unknown, file: string, id = newId()): WorkbookDocument {
  const {
    format,
    title,
    shipped,
    changed,
    cells: givenCells,
    settings: given,
  } = (data ?? {}) as Record<string, unknown>;
  if (typeof format !== 'string' && typeof format !== 'number')
    throw new InputError(`${file} holds no Hourline workbook`, { file });
  if (format !== FORMAT) {
    throw new InputError(
      `${file} holds a workbook of the form “${format}”; this version of Hourline reads ${FORMAT}`,
      { file },
    );
  }
  const cells = readCells(givenCells);
  if (!cells) throw new InputError(`${file} is damaged: its cells cannot be read`, { file, field: 'cells' });
  const settings = readSettings(given);
  if (!settings) {
    throw new InputError(`${file} is damaged: its settings cannot be read`, { file, field: 'settings' });
  }
  return {
    format: FORMAT,
    id,
    title: typeof title === 'string' && title.trim() !== '' ? title.slice(0, TITLE_LENGTH) : 'Workbook',
    shipped: typeof shipped === 'string' ? shipped : null,
    cells,
    settings,
    changed:
      typeof changed === 'string' && !Number.isNaN(Date.parse(changed)) ? changed : new Date(0).toISOString(),
  };
}

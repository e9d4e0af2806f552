import type { GridValue } from '../../../base/grid.ts';
import type { TableSource } from '../../../toolkit/files.ts';
import { columnProblem, columnsAreDoubtful } from './columnsPanel.ts';
import type { HourGrid } from './gridElement.ts';
import { messageOf } from './messageOf.ts';

/** A table from text. One whose columns nobody may name is read by its control alone. */
async function read(
  element: HourGrid,
  text: string,
  fileName: string | undefined,
  notes: readonly string[],
): Promise<{ value: GridValue; source: TableSource | null }> {
  const { rows } = element.control;
  if (!rows) return { value: element.control.read(text, fileName), source: null };
  const { value, source } = (await element.loadFiles()).bringTable(text, rows, fileName);
  return { value, source: { ...source, about: [...source.about, ...notes] } };
}

/** Takes a whole table from text, or says why not and leaves everything as it was. Resolves with whether it was taken. */
export async function takeText(
  element: HourGrid,
  text: string,
  fileName?: string,
  notes: readonly string[] = [],
): Promise<boolean> {
  try {
    const { value, source } = await read(element, text, fileName, notes);
    const { rows } = value;
    const said = `Read ${rows.length} ${rows.length === 1 ? 'row' : 'rows'}${fileName ? ` from ${fileName}` : ''}`;
    element.change(value, said, source);
    element.pasting = false;
    element.columnsOpen = source !== null && columnsAreDoubtful(element);
    const problem = columnProblem(element.marks);
    if (problem) element.message += `. It cannot be read yet: ${problem.text}`;
    return true;
  } catch (error) {
    element.message = '';
    element.fault = messageOf(error);
    return false;
  }
}

/**
 * A table is read at once; of a spreadsheet another sheet can be chosen then; a recording is looked at first. Resolves with
 * whether a table was taken.
 */
export async function takeFile(element: HourGrid, file: File | undefined, sheet?: string): Promise<boolean> {
  if (!file) return false;
  element.fault = '';
  if (sheet === undefined) element.brought = null; // else another sheet can be chosen when this one holds no table
  try {
    const { openFile } = await element.loadFiles();
    const bytes = new Uint8Array(await file.arrayBuffer());
    const opened = await openFile(bytes, file.name, element.control.recording, sheet);
    if (opened.kind === 'recording') {
      element.brought = { file, recording: opened };
      return false;
    }
    if (opened.sheet !== null && opened.sheets.length > 1)
      element.brought = { file, sheets: opened.sheets, sheet: opened.sheet };
    return await takeText(element, opened.text, file.name, opened.notes);
  } catch (error) {
    element.fault = messageOf(error);
    return false;
  }
}

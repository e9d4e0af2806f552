import type { GridValue } from '../../../base/grid.ts';
import type { TableSource } from '../../../toolkit/files.ts';
import { columnsAreDoubtful } from './columnsPanel.ts';
import type { HourGrid } from './gridElement.ts';
import { messageOf } from './messageOf.ts';

/** A table from text. One whose columns nobody may name is read by its control alone. */
async function read(
  element: HourGrid,
  text: string,
  fileName: string | undefined,
): Promise<{ value: GridValue; source: TableSource | null }> {
  const { rows } = element.control;
  if (rows) return (await element.loadFiles()).bringTable(text, rows, fileName);
  return { value: element.control.read(text, fileName), source: null };
}

/** Takes a whole table from text, or says why not and leaves everything as it was. */
export async function takeText(
  element: HourGrid,
  text: string,
  fileName?: string,
  notes: readonly string[] = [],
): Promise<void> {
  try {
    const { value, source } = await read(element, text, fileName);
    const { rows } = value;
    const said = `Read ${rows.length} ${rows.length === 1 ? 'row' : 'rows'}${fileName ? ` from ${fileName}` : ''}`;
    element.change(value, [said, ...notes].join('. '), source);
    element.pasting = false;
    element.columnsOpen = source !== null && columnsAreDoubtful(element);
    if (element.columnsOpen) element.message += '. See beneath what its columns are taken for';
  } catch (error) {
    element.message = '';
    element.fault = messageOf(error);
  }
}

/** A table is read at once; of a spreadsheet another sheet can be chosen then; a recording is looked at first. */
export async function takeFile(element: HourGrid, file: File | undefined, sheet?: string): Promise<void> {
  if (!file) return;
  element.fault = '';
  if (sheet === undefined) element.brought = null; // else another sheet can be chosen when this one holds no table
  try {
    const { openFile } = await element.loadFiles();
    const bytes = new Uint8Array(await file.arrayBuffer());
    const opened = await openFile(bytes, file.name, element.control.recording, sheet);
    if (opened.kind === 'recording') {
      element.brought = { file, recording: opened };
      return;
    }
    if (opened.sheet !== null && opened.sheets.length > 1)
      element.brought = { file, sheets: opened.sheets, sheet: opened.sheet };
    await takeText(element, opened.text, file.name, opened.notes);
  } catch (error) {
    element.fault = messageOf(error);
  }
}

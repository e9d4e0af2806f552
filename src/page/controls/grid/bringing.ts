import type { BroughtText, GridValue, TableSource } from '../../../base/grid.ts';
import { InputError } from '../../../base/inputError.ts';
import { columnProblem, columnsAreDoubtful } from './columnsPanel.ts';
import type { HourGrid } from './gridElement.ts';
import { mayHaveHeadings } from './headingsChoice.ts';
import { messageOf } from './messageOf.ts';
import { testsOf } from './testChoice.ts';

/** A table that holds more characters is not taken: it could not be kept (a recording is cut into stages first). */
const MOST_CHARACTERS = 800_000;

function expectKeepable({ headings, rows }: GridValue, name: string | undefined): void {
  const size = [headings, ...rows].reduce(
    (sum, row) => sum + row.reduce((all, entry) => all + entry.length + 1, 1),
    0,
  );
  if (size <= MOST_CHARACTERS) return;
  const where = name === undefined ? '' : `${name}: `;
  throw new InputError(
    `${where}a table of ${rows.length} rows and ${headings.length} columns, more than can be kept here; bring the rows that count, or fewer columns`,
  );
}

/** A table from text. One whose columns nobody may name is read by its control alone. */
async function read(
  element: HourGrid,
  brought: BroughtText,
): Promise<{ value: GridValue; source: TableSource | null }> {
  const { rows } = element.control;
  if (!rows) return { value: element.control.read(brought.text, brought.name), source: null };
  return (await element.loadFiles()).bringTable(brought, rows);
}

/** Says why a text was not taken; where another line of headings may help, that is offered. */
function refuse(element: HourGrid, brought: BroughtText, error: unknown): void {
  const { files, control } = element;
  element.message = '';
  element.fault = messageOf(error);
  element.refused = control.rows && files && mayHaveHeadings(files, brought) ? brought : null;
  if (element.refused) element.columnsOpen = true;
}

/** Takes a whole table from text, or says why not and leaves everything as it was. Resolves with whether it was taken. */
export async function takeText(
  element: HourGrid,
  text: string,
  fileName?: string,
  notes: readonly string[] = [],
): Promise<boolean> {
  const brought: BroughtText = { text, name: fileName, notes };
  try {
    const { value, source } = await read(element, brought);
    expectKeepable(value, fileName);
    const { rows } = value;
    const said = `Read ${rows.length} ${rows.length === 1 ? 'row' : 'rows'}${fileName ? ` from ${fileName}` : ''}`;
    element.change(value, said, source);
    element.pasting = false;
    const problem = columnProblem(element.marks);
    const tests = problem && source && element.files ? testsOf(element.files, element).length : 0;
    element.columnsOpen = source !== null && tests === 0 && columnsAreDoubtful(element);
    if (tests > 0)
      element.message += `. It holds ${tests === 1 ? 'a whole test in a row' : `${tests} tests`}: say which to take`;
    else if (problem) element.message += `. It cannot be read yet: ${problem.text}`;
    return true;
  } catch (error) {
    refuse(element, brought, error);
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
  element.message = ''; // it told of the table before
  element.refused = null;
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

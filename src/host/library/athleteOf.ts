import type { WorkbookDocument } from '../../workbook/document.ts';

const FIELD = /export const ([\w$]+) = athleteField\((?:'([^'\n]*)'|"([^"\n]*)")\)/;

/**
 * The athlete's code that a workbook gives: what the reader entered in its athlete field, else what the field starts
 * with; '' when it has none. Read from the text, since the host runs no cell.
 */
export function athleteOf({ cells, settings }: WorkbookDocument): string {
  for (const { name, text } of cells) {
    const found = FIELD.exec(text);
    if (!found) continue;
    const start = found[2] ?? found[3] ?? '';
    const moved = settings[`${name}#${found[1]}`];
    const entered = moved?.from === JSON.stringify(start) ? moved.value : start;
    return typeof entered === 'string' ? entered.trim() : '';
  }
  return '';
}

import type { WorkbookDocument } from '../../workbook/document.ts';

const counted = (count: number, one: string, many: string) => (count === 1 ? `1 ${one}` : `${count} ${many}`);

/** In what a version differs from the present state, in a few words. */
export function differenceInWords(version: WorkbookDocument, present: WorkbookDocument | undefined): string {
  if (!present) return '';
  const cells = new Map(present.cells.map(({ name, text }) => [name, text]));
  const changed = version.cells.filter(
    ({ name, text }) => cells.has(name) && cells.get(name) !== text,
  ).length;
  const gone = version.cells.filter(({ name }) => !cells.has(name)).length;
  const added = cells.size - (version.cells.length - gone);
  const places = new Set([...Object.keys(version.settings), ...Object.keys(present.settings)]);
  const entries = [...places].filter(
    (place) => JSON.stringify(version.settings[place]) !== JSON.stringify(present.settings[place]),
  ).length;
  const parts = [
    version.title === present.title ? '' : 'another title',
    changed ? `${counted(changed, 'cell', 'cells')} with another text` : '',
    gone ? `${counted(gone, 'cell', 'cells')} since deleted` : '',
    added ? `${counted(added, 'cell', 'cells')} fewer` : '',
    entries ? `${counted(entries, 'other entry', 'other entries')}` : '',
  ].filter(Boolean);
  return parts.length === 0 ? 'as it is now' : parts.join(', ');
}

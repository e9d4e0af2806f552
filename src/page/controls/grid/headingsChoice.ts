import { html, nothing } from 'lit';
import type { BroughtText, HeadingsSaid } from '../../../base/grid.ts';
import type { HeadingLine } from '../../../toolkit/files.ts';
import { plain } from '../../results/inspect.ts';
import type { FilesModule, HourGrid } from './gridElement.ts';
import { messageOf } from './messageOf.ts';
import { choices, walk } from './walking.ts';

/** A longer line is cut in the list. */
const LONGEST_SHOWN = 60;
/** For a text that was refused: nothing has been said yet. */
const NOT_SAID = '';

/** The lines of each text, which are asked for with every change of the page. */
const linesKnown = new WeakMap<BroughtText, HeadingLine[]>();

function linesOf(files: FilesModule, brought: BroughtText): HeadingLine[] {
  const lines = linesKnown.get(brought) ?? files.headingLines(brought.text);
  linesKnown.set(brought, lines);
  return lines;
}

/** Whether somebody can help a text that was refused by saying where its headings are. */
export const mayHaveHeadings = (files: FilesModule, brought: BroughtText): boolean =>
  linesOf(files, brought).length > 0;

/** Reads the text anew with its headings where somebody says. */
function readAnew(element: HourGrid, files: FilesModule, brought: BroughtText, said: HeadingsSaid): void {
  try {
    walk(element, 'headings', () => {
      const { value, source } = files.bringTable(brought, element.control.rows!, said);
      const where = said === 'none' ? 'without headings' : `with its headings in line ${said}`;
      return { step: { grid: value, source }, said: `Read anew ${where}` };
    });
    element.pasting = false;
  } catch (error) {
    element.fault = messageOf(error);
  }
}

function shown({ line, entries }: HeadingLine): string {
  const text = plain(entries.join(' | '));
  return `line ${line}: ${text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text}`;
}

/** The lines that may hold the headings, with the one that does, wherever that was found. */
function offered(lines: readonly HeadingLine[], { source, refused }: HourGrid): HeadingLine[] {
  const at = source?.headingsAt;
  if (refused || typeof at !== 'number' || lines.some(({ line }) => line === at)) return [...lines];
  return [...lines, { line: at, entries: source!.headings }].sort((a, b) => a.line - b.line);
}

/** Where the headings of a text are, to be corrected; nothing where there is no choice. */
export function headingsChoice(element: HourGrid, files: FilesModule) {
  const { source, refused } = element;
  const brought = refused ?? source?.brought;
  const lines = brought ? offered(linesOf(files, brought), element) : [];
  if (!brought || lines.length === 0) return nothing;
  const list = choices(element, {
    label: 'Headings are in',
    options: [
      ...(refused ? [{ value: NOT_SAID, text: 'choose their line' }] : []),
      ...lines.map((line) => ({ value: String(line.line), text: shown(line) })),
      { value: 'none', text: 'no line: number the columns' },
    ],
    chosen: refused ? NOT_SAID : String(source!.headingsAt),
    choose: (value) => {
      if (value !== NOT_SAID) readAnew(element, files, brought, value === 'none' ? value : Number(value));
    },
  });
  const hint = refused
    ? 'The text could not be read as it is. Say where its headings are, and it is read again.'
    : 'Another line reads the text anew, without what was changed since; Undo takes it back.';
  return html`<p class="hint">${hint}</p>
    <label class="headings-choice"><span>Headings are in</span> ${list}</label>`;
}

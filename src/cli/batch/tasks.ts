import { InputError } from '../../base/inputError.ts';
import { headingCount } from '../../data-in/delimited.ts';
import { COMMENT, entriesOfLine, findLayout, HEADING_SEARCH_ROWS, isBlank } from '../../data-in/layout.ts';
import { countRosterHeadings, ROSTER_HEADINGS, Roster, type RosterTest } from '../../data-in/roster.ts';
import { type Line, LONGEST_LINE } from './lines.ts';

/** One test to answer: a line of NDJSON, a test of a roster, or what is wrong already. */
export type Task =
  | { kind: 'record'; line: number; text: string }
  | { kind: 'roster'; test: RosterTest }
  | { kind: 'fault'; error: string };

const TOO_LONG = `longer than ${LONGEST_LINE} bytes; expected one test a line`;

/** Tasks in the order of the input, in blocks of at most `size`; what a piece of input completes is not held back. */
export async function* tasksIn(
  lines: AsyncIterable<Line[]>,
  { size, file }: { size: number; file: string },
): AsyncGenerator<Task[]> {
  let reader: Reader | null = null;
  const head: Line[] = [];
  for await (const block of lines) {
    if (reader) yield* blocksOf(block.flatMap(reader.add), size);
    else {
      head.push(...block);
      reader = readerFor(head, false, file);
      if (reader) yield* blocksOf(head.flatMap(reader.add), size);
    }
  }
  if (!reader) {
    reader = readerFor(head, true, file)!;
    yield* blocksOf(head.flatMap(reader.add), size);
  }
  yield* blocksOf(reader.end(), size);
}

function* blocksOf(tasks: Task[], size: number): Generator<Task[]> {
  for (let i = 0; i < tasks.length; i += size) yield tasks.slice(i, i + size);
}

interface Reader {
  add(line: Line): Task[];
  end(): Task[];
}

/** The reader that the beginning of the input asks for; null while it does not tell yet. */
function readerFor(head: readonly Line[], complete: boolean, file: string): Reader | null {
  const first = head.find(({ text }) => text === null || text.replace('\uFEFF', '').trim() !== '');
  if (first?.text === null || /^\uFEFF?\s*[{[]/.test(first?.text ?? '')) return recordReader(file);
  if (complete && !first)
    throw new InputError(`${file}: empty; expected tests, one a line, or a table of them`, { file });
  return complete || head.length > HEADING_SEARCH_ROWS ? rosterReader(head, file) : null;
}

function recordReader(file: string): Reader {
  return {
    add({ line, text }) {
      if (text === null) return [{ kind: 'fault', error: `${file}, line ${line}: ${TOO_LONG}` }];
      const record = text.replace(/^\uFEFF/, '').trim();
      return record === '' ? [] : [{ kind: 'record', line, text: record }];
    },
    end: () => [],
  };
}

function rosterReader(head: readonly Line[], file: string): Reader {
  const text = head.map((line) => line.text ?? '').join('\n');
  const layout = findLayout(text, { file, countHeadings: countRosterHeadings, expected: ROSTER_HEADINGS });
  const { delimiter, index, rows } = layout;
  const heading = rows[index]!;
  const headings = heading.entries.slice(0, headingCount(heading));
  const roster = new Roster(headings, heading.line, file);
  // A heading may hold line breaks; the rows begin where the row after it begins.
  const from = rows[index + 1]?.line ?? Number.POSITIVE_INFINITY;
  const done = (test: RosterTest | null): Task[] => (test ? [{ kind: 'roster', test }] : []);
  return {
    add({ line, text }) {
      if (line < from) return [];
      if (text === null) return [{ kind: 'fault', error: `${file}, line ${line}: ${TOO_LONG}` }];
      const entries = entriesOfLine(text, delimiter);
      if (isBlank({ line, entries }) || COMMENT.test(entries[0]!.trim())) return [];
      return done(roster.add(entries, line));
    },
    end: () => done(roster.end()),
  };
}

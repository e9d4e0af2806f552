import { readDelimited } from '../../src/data-in/delimited.ts';
import { countRosterHeadings, ROSTER_HEADINGS, Roster, type RosterTest } from '../../src/data-in/roster.ts';
import { readSession, readSessionTable, type SessionOptions } from '../../src/data-in/session.ts';
import type { Session } from '../../src/physiology/training/session.ts';

/** The session in a text. */
export const sessionFromText = (text: string, options: SessionOptions = {}): Session =>
  readSession(readSessionTable(text, options.file), options);

/** The tests in a text, all at once: a batch takes them one by one. */
export function rosterFromText(text: string, file?: string): RosterTest[] {
  const { headings, headingPlace, rows, places } = readDelimited(text, {
    file,
    countHeadings: countRosterHeadings,
    expected: ROSTER_HEADINGS,
  });
  const roster = new Roster(headings, headingPlace.line, file);
  const tests = rows.map((row, i) => roster.add(row, places[i]!.line));
  return [...tests, roster.end()].filter((test) => test !== null);
}

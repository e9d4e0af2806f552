import type { GridValue } from '../base/grid.ts';
import type { Column } from './columns.ts';
import { hardnessOf } from './entries.ts';
import { NOT_USED, readHeading } from './headings.ts';
import type { Marks } from './marks.ts';
import { decimalMark, readEntry } from './numbers.ts';

/** Who was tested, in the languages that such lists are kept in most. */
const WHO = [
  'subject|athlete|participant|person|player|runner|rider|rower|swimmer|client',
  'sportler(?:in)?|athlet(?:in)?|proband(?:in)?|teilnehmer(?:in)?|spieler(?:in)?|läufer(?:in)?|fahrer(?:in)?',
  'athlète|sportif|sportive|sujet|joueur|joueuse|coureur|coureuse',
  'deportista|atleta|sujeto|jugadora?|participante|soggetto|giocatore|giocatrice',
  'atleet|sporter|deelnemer|proefpersoon|speler|utøver|idrottare',
].join('|');
const NAME = [
  'name|first name|last name|family name|surname|full name|vorname|nachname',
  'nom|prénom|nom et prénom|nombre|apellidos?|nome|cognome|naam|voornaam|achternaam|navn|namn',
].join('|');
const WHEN = 'date|test date|datum|testdatum|fecha|dato|visit|timepoint|time point';

/** Headings that tell tests apart: with more than one value the table holds several tests. */
export const TEST_NAMES = new RegExp(
  `^(?:(?:${WHO})(?: (?:id|name|code|no\\.?))?|${NAME}|${WHEN}|id|test)$`,
  'iu',
);

const namesTests = (heading: string) => TEST_NAMES.test(heading.replaceAll('_', ' ').trim());

/** A test has at least so many stages (our rule); fewer rows in a row may be a warm-up. */
const FEWEST_STAGES = 3;

/** Rows that follow one another under the same word; a word holds on where entries below it are empty, as in merged cells. */
function runsOf({ rows }: GridValue, index: number): { word: string; rows: number[] }[] {
  const runs: { word: string; rows: number[] }[] = [];
  rows.forEach((entries, row) => {
    const word = entries[index]!.trim();
    const last = runs.at(-1);
    if (last && (word === '' || word === last.word)) last.rows.push(row);
    else runs.push({ word, rows: [row] });
  });
  return runs;
}

/** How many tests a column tells apart where the intensity rises under each of its words and starts over with the next. */
function testsByIntensity(grid: GridValue, index: number, hardness: readonly (number | null)[]): number {
  const runs = runsOf(grid, index);
  const areWordsTheirOwn = new Set(runs.map(({ word }) => word)).size === runs.length;
  const stages = runs.map(({ rows }) => rows.map((row) => hardness[row]!).filter((hard) => hard !== null));
  const isEachATest = stages.every(
    (hard, i) =>
      hard.length >= FEWEST_STAGES &&
      hard.at(-1)! > hard[0]! &&
      (i === 0 || hard[0]! < stages[i - 1]!.at(-1)!),
  );
  return isEachATest && areWordsTheirOwn ? runs.length : 1;
}

/** More than one value, over several rows each: each is a test. A value of its own in every row only names the rows. */
function valuesIn({ rows }: GridValue, index: number): number {
  const filled = rows.map((row) => row[index]!.trim()).filter((value) => value !== '');
  const { size } = new Set(filled);
  return size < filled.length ? size : 1;
}

/** How hard each row was; null where it does not say. */
function hardnessOfRows({ rows }: GridValue, intensity: Column): (number | null)[] {
  const mark = decimalMark(rows.flat());
  return rows.map((row) => hardnessOf(readEntry(row[intensity.index]!, mark), intensity));
}

/** Several athletes or days in one table: reading on would mix tests up. */
export function expectOneTest(grid: GridValue, intensity: Column | null, marks: Marks): void {
  const hardness = intensity && hardnessOfRows(grid, intensity);
  grid.headings.forEach((heading, index) => {
    const isName = namesTests(heading);
    if (!isName && (heading.startsWith(NOT_USED) || readHeading(heading))) return;
    const named = isName ? valuesIn(grid, index) : 1;
    const tests = named > 1 || !hardness ? named : testsByIntensity(grid, index, hardness);
    if (tests < 2) return;
    const column = heading.trim() === '' ? `column ${index + 1}` : `"${heading}"`;
    marks.problem(
      isName
        ? `${column} tells ${tests} tests apart; expected the stages of one test`
        : `${column} seems to tell ${tests} tests apart, for the intensity starts over where it changes; if it does, call it athlete or date, else remark`,
      index,
    );
  });
}

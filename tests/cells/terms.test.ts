import { describe, expect, test, vi } from 'vitest';
import { TERMS } from '../../src/physiology/terms.ts';
import { term } from '../../src/toolkit/terms.ts';
import { shown } from './shown.ts';
import { WORKBOOKS, type Workbook } from './workbook.ts';

vi.setConfig({ testTimeout: 60_000 });

/** Ways in which a term is written: 'First threshold (LT1)' is two, 'Time trial, time to exhaustion' too. */
const wordsOf = (name: string): string[] =>
  name
    .split(/[(),]/)
    .map((word) => word.trim())
    .filter(Boolean);

/** Whether a text has one of the words, whole; abbreviations as they are written. */
const uses = (text: string, name: string): boolean =>
  wordsOf(name).some((word) =>
    new RegExp(
      `(?<![\\w-])${word.replace(/[%]/g, '\\$&')}s?(?![\\w-])`,
      word === word.toUpperCase() ? '' : 'i',
    ).test(text),
  );

/** Abbreviations that are no terms: kinds of files, units, societies, journals, columns of a table, places in numbers. */
const NO_TERMS =
  /^(CSV|XLSX|FIT|TCX|GPX|HR|WHO|ESC|PAR|ACSM|CLSI|GP\d+|JCGM|ISO|PLoS|ONE|PMC\d+|I{1,3}|IV|V)$/;

interface Read {
  /** All that the workbook says, its list of terms apart. */
  text: string;
  list: string;
}

async function read(workbook: Workbook): Promise<Read> {
  const { text } = await shown({}, workbook);
  const entries = [...text];
  const isList = ([name]: [string, string]) => name.endsWith('-terms');
  return {
    text: entries
      .filter((entry) => !isList(entry))
      .map(([, all]) => all)
      .join('\n'),
    list: entries
      .filter(isList)
      .map(([, all]) => all)
      .join('\n'),
  };
}

describe.each(WORKBOOKS)('the workbook %s', (workbook) => {
  test('lists every term that it uses, in a sentence and with its source', async () => {
    const { text, list } = await read(workbook);
    const used = Object.values(TERMS).filter(({ name }) => uses(text, name));
    expect(used.length).toBeGreaterThan(5);
    expect(
      used.filter(({ name, says, source }) => !list.includes(`**${name}:** ${says} *${source}*`)),
    ).toEqual([]);
  });

  test('uses no abbreviation that it does not explain', async () => {
    const { text, list } = await read(workbook);
    const prose = text.replace(/"headings":[^\n]*/g, '').replace(/\(term:[^)]*\)/g, '');
    const abbreviations = new Set(prose.match(/\b[A-Z]\w*[A-Z]\w*\b/g) ?? []);
    const unknown = [...abbreviations].filter((word) => !NO_TERMS.test(word) && !list.includes(`(${word})`));
    expect(unknown).toEqual([]);
  });

  test('has no link that leads nowhere', async () => {
    const { engine } = await shown({}, workbook);
    const names = engine.cells().map(({ name }) => name);
    const linked = engine
      .cells()
      .flatMap(({ text }) => [...text.matchAll(/\(cell:([\w-]+)\)/g)].map(([, to]) => `${to}.ts`));
    expect(linked.filter((to) => !names.includes(to))).toEqual([]);
  });
});

test('no term stands in the list that no workbook uses', async () => {
  const all = (await Promise.all(WORKBOOKS.map(read))).map(({ text }) => text).join('\n');
  expect(
    Object.values(TERMS)
      .filter(({ name }) => !uses(all, name))
      .map(({ name }) => name),
  ).toEqual([]);
});

test('a term in prose carries its explanation, and one that is not in the list is refused in a sentence', () => {
  expect(term('seed')).toBe(
    '[seed](term:seed "The number that the random errors begin with: the same seed gives the same figures again. Source: common practice.")',
  );
  expect(() => term('sed' as 'seed')).toThrow("term: 'sed' is not in the list; there are lactate, ");
});

test.each(Object.entries(TERMS))('%s is one sentence that a title can hold', (_, { says, source }) => {
  expect(says).toMatch(/^[A-Z0-9][^".]*(\d\.\d[^".]*)*\.$/);
  expect(source).not.toMatch(/["]|[.]$/);
});

import { describe, expect, test, vi } from 'vitest';
import type { Control } from '../../src/view/controls.ts';
import { openWorkbook, WORKBOOKS } from './workbook.ts';

vi.setConfig({ testTimeout: 60_000 });

/** Who says so: a paper with its year, a standard, or one of the words that DEVELOPERS.md lays down, or where it stands. */
const A_SOURCE =
  /\b(18|19|20)\d\d\b|common practice|our rule|from memory|invented|stands? (below|above|in|with)/i;

const isSentence = (text: string): boolean => /^[A-Z0-9][^\n]*[.]$/.test(text.replace(/\s+/g, ' ').trim());

/** What is missing in the explanation of a control; '' for nothing. */
function missing({ about }: Control): string {
  if (!about) return 'no explanation';
  if (!isSentence(about.says)) return `no sentence: ${about.says}`;
  return A_SOURCE.test(about.source) ? '' : `no source: ${about.source}`;
}

describe.each(WORKBOOKS)('the workbook %s', (workbook) => {
  test('explains each of its controls in a sentence and says who says so', async () => {
    const engine = await openWorkbook(workbook);
    const controls = engine
      .states()
      .flatMap(({ name, controls }) =>
        controls.map(({ name: own, control }) => ({ place: `${name}#${own}`, lacks: missing(control) })),
      );
    expect(controls.length).toBeGreaterThan(2);
    expect(controls.filter(({ lacks }) => lacks !== '')).toEqual([]);
  });
});

test.each<[string, Control['about'], string]>([
  ['nothing', undefined, 'no explanation'],
  ['a word', { says: 'Draws', source: 'our rule' }, 'no sentence: Draws'],
  ['nobody', { says: 'It is so.', source: 'everybody knows' }, 'no source: everybody knows'],
])('a control that brings %s is caught', (_, about, lacks) => {
  const control = { control: 'toggle', label: 'x', value: true, ...(about && { about }) } as Control;
  expect(missing(control)).toBe(lacks);
});

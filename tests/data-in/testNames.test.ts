import { describe, expect, test } from 'vitest';
import { stepTestFromText } from '../../src/data-in/fromText.ts';
import { checkStepTest } from '../../src/data-in/stages.ts';
import { testsInTable } from '../../src/data-in/testsInTable.ts';

const problems = (text: string) => {
  const [headings = [], ...rows] = text
    .trim()
    .split('\n')
    .map((line) => line.split(','));
  return checkStepTest({ headings, rows }, { sport: 'cycling' })
    .filter(({ tone }) => tone === 'problem')
    .map((mark) => ({ column: mark.column, text: mark.text }));
};

const two = (heading: string, words = ['Ana', 'Ana', 'Ana', 'Ben', 'Ben', 'Ben']) =>
  `${heading},power,lactate
${words[0]},100,1.0
${words[1]},150,1.4
${words[2]},200,3.1
${words[3]},100,1.2
${words[4]},150,1.9
${words[5]},200,4.4`;

describe('several athletes in a table of stages', () => {
  test.each(['Sportler', 'Athletin', 'Nom', 'Prénom', 'Deportista', 'Atleta', 'Naam', 'Datum', 'athlete_id'])(
    '"%s" says who or when',
    (heading) => {
      const text = two(heading);
      expect(problems(text)).toEqual([
        { column: 0, text: `"${heading}" tells 2 tests apart; expected the stages of one test` },
      ]);
      const [headings = [], ...rows] = text.split('\n').map((line) => line.split(','));
      expect(testsInTable({ headings, rows }).map(({ id }) => id)).toEqual(['Ana', 'Ben']);
    },
  );

  test('a heading that nobody knows is asked about where the intensity starts over with its words', () => {
    expect(problems(two('Zawodnik'))).toMatchObject([
      { column: 0, text: expect.stringMatching(/^"Zawodnik" seems to tell 2 tests apart.*call it athlete/) },
    ]);
    expect(problems(two(''))).toMatchObject([{ text: expect.stringMatching(/^column 1 seems/) }]);
    expect(problems(two('Zawodnik', ['7', '7', '7', '12', '12', '12']))).toHaveLength(1);
  });

  test('so are words that stand only where they begin, as in merged cells', () => {
    const merged = ['Ana', '', '', 'Ben', '', ''];
    expect(problems(two('athlete', merged))).toMatchObject([{ text: expect.stringMatching(/2 tests/) }]);
    expect(problems(two('Zawodnik', merged))).toHaveLength(1);
  });

  test.each([
    ['said to be a remark', two('remark')],
    ['said not to be used', two('not used: Zawodnik')],
    ['one word', two('Gerät', ['x', 'x', 'x', 'x', 'x', 'x'])],
    ['words that come and go', two('Hand', ['l', 'r', 'l', 'r', 'l', 'r'])],
    [
      'words while the intensity rises',
      'Gefühl,power,lactate\nok,100,1\nok,120,1\nok,140,1\nbad,160,2\nbad,180,3\nbad,200,4',
    ],
    ['a short warm-up', 'Teil,power,lactate\nwarm,100,1\nwarm,150,1\nmain,100,1\nmain,150,2\nmain,200,4'],
  ])('none are seen in a column of %s', (_, text) => {
    expect(problems(text)).toEqual([]);
  });

  test('a falling pace starts over, too', () => {
    const text =
      'Zawodnik,pace (min/km),lactate\nA,6:00,1\nA,5:30,1.5\nA,5:00,3\nB,6:00,1\nB,5:30,2\nB,5:00,4\n';
    expect(() => stepTestFromText(text, { file: 'x.csv' })).toThrow(
      /^x\.csv.*"Zawodnik" seems to tell 2 tests/,
    );
  });
});

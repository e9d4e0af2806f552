import { describe, expect, test } from 'vitest';
import { plainCode } from '../../src/host/share/code.ts';
import { embedCode, embedWorkbook, fingerprintOf, readSharePage } from '../../src/host/share/embedded.ts';
import { highlight } from '../../src/host/share/highlight.ts';
import {
  checkNothingLeft,
  identityIn,
  readWords,
  resultsWithout,
  workbookWithout,
} from '../../src/host/share/identity.ts';
import { type ShareContent, sharePage } from '../../src/host/share/sharePage.ts';
import type { WorkbookDocument } from '../../src/workbook/document.ts';

/** Texts that would end a script block, a string or an encoding if they were not escaped. */
const AWKWARD = [
  "export default '</script><script>alert(1)</script>';\n",
  '// <!-- <script> ]]> & &amp; \u2028 \u2029 \r\n\t\0 é 😀\n',
  'const alone = "\ud800"; // half a character\n',
  '',
];

const WORKBOOK: WorkbookDocument = {
  format: 'hourline-workbook-1',
  id: 'a1',
  title: 'Step test of <Ada> & "Bo"',
  shipped: 'cyclist',
  cells: AWKWARD.map((text, i) => ({ name: `cell-${i}.ts`, text })),
  settings: { 'cell-0.ts#mass': { value: { rows: [['</script>', '70']] }, from: 'null' } },
  changed: '2026-02-03T04:05:06.000Z',
};

async function pageOf(workbook: WorkbookDocument, more: Partial<ShareContent> = {}): Promise<string> {
  return sharePage({
    workbook,
    results: [{ name: 'cell-0.ts', inShort: '<p>the answer</p>', html: '<p>244.7 W</p>' }],
    version: '1.2.3',
    made: '2026-03-04T05:06:07.000Z',
    fingerprint: await fingerprintOf(workbook),
    cautions: [{ title: 'Stop', points: ['when <unwell>'] }],
    cautionSources: 'Guidelines & rules',
    styles: 'p { color: red }',
    highlight,
    ...more,
  });
}

const content = ({ title, shipped, cells, settings, changed }: WorkbookDocument) =>
  JSON.stringify({ title, shipped, cells, settings, changed });

describe('a share page', () => {
  test('is read again as the same workbook, character by character', async () => {
    const { document, altered } = await readSharePage(await pageOf(WORKBOOK));
    expect(content(document)).toBe(content(WORKBOOK));
    expect(altered).toBe(false);
    expect(document.id).not.toBe(WORKBOOK.id);
  });

  test('survives being written as UTF-8 and read again', async () => {
    const bytes = new TextEncoder().encode(await pageOf(WORKBOOK));
    const { document, altered } = await readSharePage(new TextDecoder().decode(bytes));
    expect(content(document)).toBe(content(WORKBOOK));
    expect(altered).toBe(false);
  });

  test('holds one script element, which is data, and nothing that loads', async () => {
    const html = await pageOf(WORKBOOK);
    expect(html.match(/<script/g)).toHaveLength(1);
    expect(html).toContain('<script type="application/json"');
    expect(html).toContain("default-src 'none'");
    expect(html).not.toMatch(/<(link|img|iframe|object|a)\b|\s(src|href)=/);
  });

  test('shows results, code, cautions and provenance as text', async () => {
    const html = await pageOf(WORKBOOK);
    expect(html).toContain('<p>244.7 W</p>');
    expect(html).toContain('<h1>Step test of &lt;Ada&gt; &amp; &quot;Bo&quot;</h1>');
    expect(html).toContain('when &lt;unwell&gt;');
    expect(html).toContain('Hourline 1.2.3');
    expect(html).toContain('2026-03-04T05:06:07.000Z');
    expect(html).toContain(await fingerprintOf(WORKBOOK));
  });

  test('says its code once, and gives what it shows', async () => {
    const html = await pageOf(WORKBOOK);
    expect(html.match(/half a character/g)).toHaveLength(1);
    const { document, altered } = await readSharePage(html.replace('half a character', 'half a sentence'));
    expect(document.cells[2]!.text).toBe('const alone = "\ud800"; // half a sentence\n');
    expect(altered).toBe(true);
  });

  test.each([
    ['settings', '["</script>","70"]', '["</script>","71"]'],
    ['names of cells', '"name":"cell-3.ts"', '"name":"cell-4.ts"'],
  ])('says so when its %s were changed afterwards', async (_, before, after) => {
    const escaped = (text: string) => text.replaceAll('<', '\\u003c');
    const html = await pageOf(WORKBOOK);
    const changed = html.replace(escaped(before), escaped(after));
    expect(changed).not.toBe(html);
    expect((await readSharePage(changed)).altered).toBe(true);
  });

  test('survives a transport that ends lines in its own way', async () => {
    const { document, altered } = await readSharePage((await pageOf(WORKBOOK)).replaceAll('\n', '\r\n'));
    expect(content(document)).toBe(content(WORKBOOK));
    expect(altered).toBe(false);
  });

  test('of the earlier form, with the code in the block, is read as well', async () => {
    const { cells } = WORKBOOK;
    const fingerprint = await fingerprintOf(WORKBOOK);
    const embedded = { form: 'hourline-share-page-1', version: '0.1.0', fingerprint, workbook: WORKBOOK };
    const block = JSON.stringify(embedded).replaceAll('<', '\\u003c');
    const html = `<!doctype html><p>results</p><script type="application/json" id="hourline-workbook">${block}</script>`;
    const { document, altered } = await readSharePage(html);
    expect(document.cells).toEqual(cells);
    expect(altered).toBe(false);
  });

  test('without the code of a cell is refused', async () => {
    const html = (await pageOf(WORKBOOK)).replace('data-cell="1"', '');
    await expect(readSharePage(html, 'test.html')).rejects.toThrow(
      'test.html is damaged: the code of cell-1.ts is missing',
    );
  });

  const block = (embedded: object) =>
    `<script type="application/json" id="hourline-workbook">${JSON.stringify(embedded).replaceAll('<', '\\u003c')}</script>`;

  test.each([
    ['no workbook in it', '<!doctype html><p>hello</p>', 'holds no workbook'],
    ['cut off', '<script type="application/json" id="hourline-workbook">{"form"', 'cut off'],
    ['no JSON', '<script type="application/json" id="hourline-workbook">{"form"</script>', 'not valid JSON'],
    [
      'another form',
      '<script type="application/json" id="hourline-workbook">{"form":"hourline-share-page-9","version":"9"}</script>',
      'hourline-share-page-9',
    ],
    ['no form', block({ form: { toString: 1 } }), 'there is no workbook in it'],
    ['no workbook', block({ form: 'hourline-share-page-2', version: '1' }), 'there is no workbook in it'],
    [
      'a workbook nested ten thousand deep',
      block({ form: 'hourline-share-page-1', workbook: { ...WORKBOOK, more: 'DEEP' } }).replace(
        '"DEEP"',
        '['.repeat(10_000) + ']'.repeat(10_000),
      ),
      'nested too deep',
    ],
  ])('with %s is refused with a sentence', async (_, html, part) => {
    await expect(readSharePage(html, 'test.html')).rejects.toThrow(part);
    await expect(readSharePage(html, 'test.html')).rejects.toThrow('test.html');
  });

  test('with unusable cells is refused', async () => {
    const bad = { ...WORKBOOK, cells: [{ name: '../x.ts', text: '' }] };
    const html = embedCode(0, '') + embedWorkbook(bad, '1', null);
    await expect(readSharePage(html, 'bad.html')).rejects.toThrow('cells cannot be read');
  });

  test('fingerprint is the SHA-256 that other tools compute', async () => {
    // printf '{"a":1}' | sha256sum (GNU coreutils 9.1)
    const expected = '015abd7f5cc57a2dd94b7590f04ad8084273905ee33ec5cebeae62276a97f862';
    expect(await fingerprintOf({ a: 1 })).toBe(expected);
  });
});

describe('highlighted code', () => {
  test('is the code again, character by character', () => {
    for (const text of [...AWKWARD, "import { x } from './a.ts';\nconst n: number = 4.5; // ° &#38; &amp;\n"])
      expect(plainCode(highlight(text))).toBe(text);
  });

  test('marks neighbours of one kind together', () => {
    expect(highlight("export default\n  'a';")).toBe("<c-w>export default</c-w>\n  <c-t>'a'</c-t>;");
  });

  test('marks words, texts, numbers and remarks', () => {
    expect(highlight("const a = 1; // b\n'c'")).toBe(
      "<c-w>const</c-w> a = <c-n>1</c-n>; <c-r>// b</c-r>\n<c-t>'c'</c-t>",
    );
  });
});

describe('leaving out who the athlete is', () => {
  const named: WorkbookDocument = {
    ...WORKBOOK,
    title: 'Ada Example, 3 March 2026',
    cells: [
      { name: 'a.ts', text: "export const name = 'Ada Example'; // ada; Adaptation stays; 2026-03-04\n" },
    ],
    settings: {
      'a.ts#club': { value: { rows: [['Example & Co']] }, from: '"Ada"' },
      'b.ts#stages': {
        value: {
          headings: ['power (W)', 'Notes'],
          rows: [
            ['100', ''],
            ['150', 'left knee hurts'],
            ['200', 'ok'],
          ],
        },
        from: 'null',
      },
    },
  };
  const identity = identityIn(named, readWords(' Ada , Ada Example, Example & Co'));

  test('replaces whole words, dates and noted entries in title, code and settings, in either case', () => {
    const { title, cells, settings, changed, id } = workbookWithout(named, identity);
    expect(title).toBe('Athlete, date left out');
    expect(cells[0]!.text).toBe(
      "export const name = 'Athlete'; // Athlete; Adaptation stays; date left out\n",
    );
    expect(settings['a.ts#club']).toEqual({ value: { rows: [['Athlete']] }, from: '"Athlete"' });
    expect(settings['b.ts#stages']!.value).toEqual({
      headings: ['power (W)', 'Notes'],
      rows: [
        ['100', ''],
        ['150', 'Athlete'],
        ['200', 'ok'],
      ],
    });
    expect([changed, id]).toEqual(['', '']);
  });

  test.each([
    '2026-03-04',
    '2026-03-04T05:06:07.000Z',
    '4.3.2026',
    '04. 03. 2026',
    '3/4/26',
    '03/04/2026',
    '4 March 2026',
    '4th Mar. 2026',
    'March 4, 2026',
  ])('the date %s goes', (date) => {
    expect(identity.blank(`Tested on ${date}, in the lab`)).toBe('Tested on date left out, in the lab');
  });

  test.each(['4.3', '1/2', '240.5 W', 'Dickhuth 1999', '10-20-30', '12:30', '1.2.3', 'v2026-1'])(
    '%s is no date',
    (text) => {
      expect(identity.blank(text)).toBe(text);
    },
  );

  test('finds a word that is escaped in markup', () => {
    const shown = [{ name: 'a.ts', inShort: '<b>ADA</b>', html: '<p>Example &amp; Co</p>' }];
    expect(resultsWithout(shown, identity)).toEqual([
      { name: 'a.ts', inShort: '<b>Athlete</b>', html: '<p>Athlete</p>' },
    ]);
  });

  test.each(['&nbsp;', '\u202f', '\u00a0', '\n'])('finds words and dates whose spaces are %j', (space) => {
    const inLab = identityIn(named, readWords('Lab 12 W'));
    const shown = 'lab 12 W, 4 March 2026, March 4, 2026, 4. 3. 2026'.replaceAll(' ', space);
    expect(inLab.blank(shown).replaceAll(space, ' ')).toBe(
      'Athlete, date left out, date left out, date left out',
    );
    expect(() => checkNothingLeft(shown, inLab)).toThrow('would still stand');
  });

  test('treats no word as a pattern', () => {
    const { blank } = identityIn(named, readWords('A.B.C'));
    expect(blank('A.B.C and AxBxC')).toBe('Athlete and AxBxC');
  });

  test('refuses words so short that they stand in others', () => {
    expect(() => readWords('Ada, Bo')).toThrow('“Bo” is too short');
  });

  test('the finished file is searched, behind tags and escapes too', () => {
    expect(() => checkNothingLeft('<p>A<b>da</b></p>', identity)).toThrow('“Ada” would still stand');
    expect(() => checkNothingLeft('<p>of 2026-03-04</p>', identity)).toThrow(
      '“2026-03-04” would still stand',
    );
    expect(() => checkNothingLeft('<p>Example &amp; Co</p>', identity)).toThrow('would still stand');
    expect(() => checkNothingLeft('{"x":"\\u0041da"}', identity)).toThrow('“Ada” would still stand');
    expect(() => checkNothingLeft('<p>Athlete, in 2026: adaptation</p>', identity)).not.toThrow();
  });
});

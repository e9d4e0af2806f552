import { describe, expect, test } from 'vitest';
import { page as browser } from 'vitest/browser';
import { grid, slider } from '../../src/view/controls.ts';
import { type ChartView, chart, figures, folded, notice, prose, stack, table } from '../../src/view/view.ts';
import { openPage } from './support/openPage.ts';
import { soon } from './support/soon.ts';

const bars = (numbers: number[]): ChartView =>
  chart({
    title: 'Bars',
    summary: `They go up to ${Math.max(...numbers)}.`,
    draw: ({ Plot, width }) =>
      Plot.barY(numbers, { fill: 'var(--first)' }).plot({ width, height: 200 }) as SVGSVGElement,
    data: table({
      caption: '',
      columns: [{ key: 'n', heading: 'Number', unit: 'W' }],
      rows: numbers.map((n) => ({ n: String(n) })),
    }),
  });

const openShown = (shown: (text: string) => unknown) =>
  openPage(
    [
      { name: 'a.ts', text: '1' },
      { name: 'b.ts', text: '' },
    ],
    (text, name) => ({
      shown: name === 'a.ts' ? shown(text) : 'after',
    }),
  );

describe('charts', () => {
  test('have a title, a name, their summary as text, and their numbers as a table', async () => {
    const open = await openShown(() => bars([1, 2]));
    const picture = await soon(() => open.find('a.ts', 'svg[role="img"]'));
    expect(picture.getAttribute('aria-label')).toBe('Bars');
    expect(open.find('a.ts', 'figcaption').textContent!.trim()).toBe('Bars');
    expect(open.find('a.ts', '.summary').textContent).toBe('They go up to 2.');
    expect([...open.cell('a.ts').querySelectorAll('details tbody th')].map((e) => e.textContent)).toEqual([
      '1',
      '2',
    ]);
  });

  test('are drawn again in place: nothing below moves, and the open table of numbers stays open', async () => {
    const open = await openShown((text) => bars([Number(text), 5]));
    const first = await soon(() => open.find('a.ts', '.picture svg'));
    open.find<HTMLDetailsElement>('a.ts', 'details').open = true;
    await new Promise(requestAnimationFrame);
    const top = open.cell('b.ts').getBoundingClientRect().top;
    const tops: number[] = [];
    const watch = new ResizeObserver(() => tops.push(open.cell('b.ts').getBoundingClientRect().top));
    watch.observe(open.cell('a.ts'));
    await open.engine.edit('a.ts', '3');
    await soon(() => expect(open.find('a.ts', '.picture svg')).not.toBe(first));
    await new Promise(requestAnimationFrame);
    watch.disconnect();
    expect(open.cell('b.ts').getBoundingClientRect().top).toBe(top);
    expect(tops.every((one) => one === top)).toBe(true);
    expect(open.find<HTMLDetailsElement>('a.ts', 'details').open).toBe(true);
  });

  test('that are still are turned into the newer picture; others take its place', async () => {
    const open = await openShown((text) => {
      const [still, value] = text.split(' ');
      return { ...bars([Number(value), 5]), ...(still === 'still' && { still: true }) };
    });
    const picture = () => open.find('a.ts', '.picture svg');
    const heights = () =>
      [...picture().querySelectorAll('rect')].map((bar) => Number(bar.getAttribute('height')));
    const become = async (text: string, height: number) => {
      await open.engine.edit('a.ts', text);
      await soon(() => expect(heights()[0]! / heights()[1]!).toBeCloseTo(height / 5));
    };
    await become('still 1', 1);
    const first = picture();
    await become('still 4', 4);
    expect(picture()).toBe(first);
    await become('kept 3', 3);
    const second = picture();
    expect(second).not.toBe(first);
    await become('still 2', 2);
    expect(picture()).not.toBe(second);
  });

  test('are as wide as their place and follow it', async () => {
    const open = await openShown(() => bars([1]));
    const width = () => open.find('a.ts', '.picture svg').getBoundingClientRect().width;
    const room = () => open.find('a.ts', 'hour-chart').getBoundingClientRect().width;
    await soon(() => expect(width()).toBe(Math.floor(room())));
    await browser.viewport(390, 800);
    await soon(() => {
      expect(room()).toBeLessThan(390);
      expect(width()).toBe(Math.floor(room()));
    });
  });

  test('in a folded part are drawn when it opens', async () => {
    const open = await openShown(() => folded('More', bars([1])));
    expect(open.cell('a.ts').querySelector('svg')).toBeNull();
    open.find<HTMLDetailsElement>('a.ts', 'details').open = true;
    await soon(() => open.find('a.ts', '.picture svg'));
  });

  test('that cannot be drawn say so in their own place and keep its height', async () => {
    const broken: ChartView = {
      ...bars([1]),
      draw: () => {
        throw new Error('no scale');
      },
    };
    const open = await openShown((text) => ['before', text === '1' ? bars([1]) : broken]);
    await soon(() => open.find('a.ts', '.picture svg'));
    const height = open.find('a.ts', '.picture').offsetHeight;
    await open.engine.edit('a.ts', '2');
    await soon(() =>
      expect(open.find('a.ts', '.picture').textContent).toBe('This chart cannot be drawn: no scale'),
    );
    expect(open.find('a.ts', '.picture').offsetHeight).toBe(height);
    expect(open.shown('a.ts')).toContain('before');
  });
});

test('tables: caption, units in headings, numbers on the right, gaps as dashes', async () => {
  const open = await openShown(() =>
    table({
      caption: 'Methods',
      columns: [
        { key: 'name', heading: 'Method' },
        { key: 'power', heading: 'Power', unit: 'W' },
      ],
      rows: [
        { name: 'Dmax', power: '251' },
        { name: 'Fixed 8', power: null, tone: 'muted' },
      ],
      note: 'From invented data.',
    }),
  );
  const cells = [...open.cell('a.ts').querySelectorAll('tbody tr')].map((row) =>
    [...row.children].map((cell) => [cell.localName, cell.className, cell.textContent]),
  );
  expect(cells).toEqual([
    [
      ['th', '', 'Dmax'],
      ['td', 'right', '251'],
    ],
    [
      ['th', '', 'Fixed 8'],
      ['td', 'right', '–'],
    ],
  ]);
  expect([...open.cell('a.ts').querySelectorAll('thead th')].map((h) => h.textContent)).toEqual([
    'Method',
    'Power W',
  ]);
  expect(open.find('a.ts', '.table-scroll').getAttribute('aria-label')).toBe('Methods');
});

test('prose: Markdown as elements, HTML as the text it is, addresses printed and not linked', async () => {
  const open = await openShown(
    () => prose`
    ## Title
    Some *words*, **more**, \`code\`, R&amp;D, a < b.

    1. one
    2. two

    | a | b |
    |---|--:|
    | x | 1 |

    <img src=x onerror="alert(1)"> and [a paper](https://example.org/p)
  `,
  );
  const result = open.find('a.ts', '.prose');
  expect(result.querySelector('h2')!.textContent).toBe('Title');
  expect(result.querySelector('p')!.textContent).toBe('Some words, more, code, R&D, a < b.');
  expect([...result.querySelectorAll('ol > li')].map((item) => item.textContent)).toEqual(['one', 'two']);
  expect(result.querySelector('td.right')!.textContent).toBe('1');
  expect(result.querySelector('img, a')).toBeNull();
  expect(result.textContent).toContain('<img src=x onerror="alert(1)">');
  expect(result.textContent).toContain('a paper (https://example.org/p)');
});

test('other values: strings as prose, numbers, lists, records, nothing', async () => {
  const open = await openShown((text) => JSON.parse(text));
  const cases: [string, string][] = [
    ['"a *b*"', 'a b'],
    ['3.14159265', '3.14159'],
    ['[1,2,3]', '[1, 2, 3]'],
    ['{"a":1}', '{\n  a: 1\n}'],
    ['null', ''],
  ];
  for (const [text, expected] of cases) {
    await open.engine.edit('a.ts', text);
    await soon(() => expect(open.shown('a.ts')).toBe(expected));
  }
});

test('lists that hold themselves or go too deep are drawn as far as they go, and the rest of the cell stays', async () => {
  const circle: unknown[] = ['before'];
  circle.push(circle);
  let deep: unknown[] = ['within'];
  for (let i = 0; i < 10_000; i++) deep = [deep];
  const open = await openShown((text) => (text === '1' ? ['above', circle] : ['above', deep]));
  for (const edit of [null, '2']) {
    if (edit) await open.engine.edit('a.ts', edit);
    await soon(() => expect(open.shown('a.ts')).toContain('lists inside lists, more than 12 deep'));
    expect(open.shown('a.ts')).toMatch(/^above/);
    expect((await open.page.snapshot())[0]!.html).toContain('lists inside lists');
  }
});

const EVERYTHING = () =>
  stack(
    figures({ label: 'First threshold', value: '178', unit: 'W', range: '164 – 190 W', tone: 'first' }),
    notice('caution', 'Not completed', 'The *last* stage.'),
    prose`# A title

See [here](https://example.org).`,
    bars([1, 2]),
    folded('More', bars([3])),
  );

test('a snapshot says which results are earlier ones, and which cells have none', async () => {
  const open = await openPage(
    ['a.ts', 'b.ts', 'c.ts'].map((name) => ({ name, text: name === 'c.ts' ? 'bad' : 'good' })),
    (text, name) => {
      if (text === 'bad') throw new Error('no such curve');
      return { shown: text, imports: name === 'b.ts' ? ['a.ts'] : [] };
    },
  );
  await open.engine.edit('a.ts', 'bad');
  open.engine.put('b.ts', { phase: 'waiting' });
  const cells = (await open.page.snapshot()).map(
    ({ html }) => new DOMParser().parseFromString(html, 'text/html').body,
  );
  expect(cells.map((cell) => cell.querySelector('.earlier-note')?.textContent)).toEqual([
    'Earlier result. This cell failed: no such curve',
    'Earlier result. This cell waits for a.',
    'No result. This cell failed: no such curve',
  ]);
  expect(cells.map((cell) => cell.querySelector('.result.earlier') !== null)).toEqual([true, true, false]);
});

test('a snapshot is static: charts as SVG, controls as text, nothing that acts or leads elsewhere', async () => {
  const meter = slider({ label: 'Meter', unit: 'mmol/L', min: 0, max: 1, step: 0.01, value: 0.15 });
  const open = await openPage(
    [
      { name: 'a.ts', text: '' },
      { name: 'b.ts', text: '' },
    ],
    (_text, name, values) =>
      name === 'a.ts'
        ? { shown: EVERYTHING() }
        : { controls: [{ name: 'meter', control: meter, value: values.meter ?? 0.15 }], shown: 'moved' },
  );
  await open.engine.setControl('b.ts', 'meter', 0.2);
  const cells = await open.page.snapshot();
  expect(cells.map((cell) => cell.name)).toEqual(['a.ts', 'b.ts']);
  const parsed = new DOMParser().parseFromString(cells.map((cell) => cell.html).join(''), 'text/html').body;
  expect(parsed.querySelectorAll('svg[role="img"]')).toHaveLength(2);
  expect(parsed.querySelector('h2')!.textContent, 'the page has a title of its own').toBe('A title');
  expect(parsed.querySelector('dl.settings')!.textContent).toBe('Meter0.20 mmol/L');
  const allowed =
    /^(div|p|h[2-6]|span|strong|em|s|code|pre|ul|ol|li|dl|dt|dd|table|thead|tbody|tr|th|td|figure|figcaption|details|summary|svg|g|path|rect|line|text|title|style|br|hr|blockquote)$/;
  const names = new Set([...parsed.querySelectorAll('*')].map((element) => element.localName));
  expect([...names].filter((name) => !allowed.test(name))).toEqual([]);
  const attributes = [...parsed.querySelectorAll('*')].flatMap((element) => element.getAttributeNames());
  expect(attributes.filter((name) => /^(on|href|src|action|\.|@|\?)/.test(name))).toEqual([]);
  expect(cells[0]!.html).not.toContain('<!--');
});

test('a snapshot draws no table in which nothing was entered, and says so', async () => {
  const table = (csv: string[][]) =>
    grid({
      label: 'Best efforts',
      value: { headings: ['no', 'time'], rows: csv },
      read: () => ({ headings: [], rows: [] }),
    });
  const open = await openPage([{ name: 'a.ts', text: '' }], () => ({
    controls: [
      { name: 'empty', control: table([['1', '']]), value: table([['1', '']]).value },
      { name: 'begun', control: table([['1', '5:00']]), value: table([['1', '5:00']]).value },
    ],
  }));
  const [cell] = await open.page.snapshot();
  const shown = new DOMParser().parseFromString(cell!.html, 'text/html').body;
  expect(shown.querySelector('dl.settings')!.textContent).toBe('Best effortsnothing entered');
  expect([...shown.querySelectorAll('tbody tr')].map((row) => row.textContent)).toEqual(['15:00']);
});

import { describe, expect, test } from 'vitest';
import { page as browser, userEvent } from 'vitest/browser';
import type { HourCell } from '../../src/page/cell/cell.ts';
import type { CellState } from '../../src/workbook/engineTypes.ts';
import type { Interpret } from './support/fakeEngine.ts';
import { focusEditor, openPage, retype } from './support/openPage.ts';
import { soon } from './support/soon.ts';
import { CELLS, interpret } from './support/threeCells.ts';

describe('editing', () => {
  test('a cell that was just put on the page has nothing typed to send', () => {
    const cell = document.createElement('hour-cell') as HourCell;
    expect(() => cell.flush()).not.toThrow();
  });

  test('a pause in typing runs the cell and shows its result', async () => {
    const open = await openPage(CELLS, interpret);
    await focusEditor(open, 'first.ts');
    await retype('42');
    await soon(() => expect(open.shown('first.ts')).toBe('42'));
    expect(open.engine.cells()[0]!.text).toBe('42');
  });

  test('Control-Enter runs at once', async () => {
    const open = await openPage(CELLS, interpret);
    await focusEditor(open, 'first.ts');
    const before = open.engine.log.length;
    await userEvent.keyboard('{Control>}{Enter}{/Control}');
    expect(open.engine.log.slice(before)).toEqual(['edit first.ts']);
    expect(open.engine.cells()[0]!.text).toBe('1');
  });

  test('leaving the editor sends what was typed', async () => {
    const open = await openPage(CELLS, interpret);
    const content = await focusEditor(open, 'first.ts');
    await retype('7');
    content.blur();
    expect(open.engine.cells()[0]!.text).toBe('7');
  });

  test('a text from elsewhere reaches the editor and can be undone there', async () => {
    const open = await openPage(CELLS, interpret);
    const content = await focusEditor(open, 'first.ts');
    await open.engine.edit('first.ts', '5');
    await soon(() => expect(content.textContent).toBe('5'));
    await userEvent.keyboard('{Control>}z{/Control}');
    await soon(() => expect(open.shown('first.ts')).toBe('1'));
  });

  test('Tab passes by the code of who has not typed', async () => {
    const open = await openPage(CELLS, interpret);
    const content = await focusEditor(open, 'first.ts');
    await userEvent.keyboard('{Tab}');
    expect(content.textContent).toBe('1');
    expect(content.contains(document.activeElement)).toBe(false);
  });

  test('after a key Tab indents, and Escape then Tab leaves the editor', async () => {
    const open = await openPage(CELLS, interpret);
    const content = await focusEditor(open, 'first.ts');
    await userEvent.keyboard('{Home}{Tab}');
    expect(content.textContent).toBe('  1');
    await userEvent.keyboard('{Escape}{Tab}');
    expect(content.contains(document.activeElement)).toBe(false);
  });

  test('the plain text before the editor has the same measure', async () => {
    const text =
      'const a = 1;\n\n// a remark that is long enough to be wrapped at the width that the code column has on this page\n';
    let give = () => {};
    const held = new Promise<void>((done) => {
      give = done;
    });
    const open = await openPage([], interpret);
    const original = open.page.library;
    open.page.library = async (name) => {
      await held;
      return original(name);
    };
    await open.engine.add('long.ts', text);
    await open.page.updateComplete;
    const height = () => open.find('long.ts', '.code-place').getBoundingClientRect().height;
    await soon(() => expect(open.find('long.ts', '.plain-code').textContent).toBe(text));
    const before = height();
    give();
    await soon(() => open.find('long.ts', '.cm-content'));
    await new Promise(requestAnimationFrame);
    expect(height()).toBe(before);
  });

  test('completing a name of the toolkit adds its import', async () => {
    const open = await openPage(CELLS, interpret);
    await focusEditor(open, 'third.ts');
    await retype('fitC');
    await soon(() =>
      expect(document.querySelector('.cm-tooltip-autocomplete')?.textContent).toContain('fitCurve'),
    );
    // Suggestions are not taken in the moment they appear, so that a key meant for the text is not caught.
    await new Promise((done) => setTimeout(done, 120));
    await userEvent.keyboard('{Enter}');
    await soon(() =>
      expect(open.engine.state('third.ts').text).toBe("import { fitCurve } from '#hourline';\n\nfitCurve"),
    );
  });
});

describe('errors', () => {
  test('are underlined at their place and told in a card that leads there', async () => {
    const open = await openPage(CELLS, interpret);
    const content = await focusEditor(open, 'first.ts');
    await retype('ab\ncde fault 2 5');
    const mark = await soon(() => open.find('first.ts', '.cm-lintRange-error'));
    expect(mark.textContent).toBe('fault');
    expect(mark.closest('.cm-line')).toBe(content.querySelectorAll('.cm-line')[1]);
    expect(open.find('first.ts', '.card').textContent).toContain('this is wrong');
    expect(open.find('first.ts', '.phase').textContent).toBe('failed');
    expect(open.find('first.ts', '.earlier-note').textContent).toBe(
      'Earlier result. This cell failed: this is wrong',
    );
    expect(open.find('first.ts', 'hour-result').textContent!.trim()).toBe('1');
    open.find('first.ts', '.card .place').click();
    await soon(() => expect(document.activeElement).toBe(content));
    await userEvent.keyboard('X');
    await soon(() => expect(open.engine.state('first.ts').text).toBe('ab\ncde Xfault 2 5'));
  });

  test('a waiting cell names the cell that holds it up and leads to it', async () => {
    const open = await openPage(CELLS, interpret);
    await open.engine.edit('first.ts', 'fault 1 1');
    open.engine.put('second.ts', {
      phase: 'waiting',
      problem: { message: 'waits for first', hint: '', line: null, column: null },
    });
    await open.page.updateComplete;
    const link = await soon(() => open.find('second.ts', '.card.waiting .place'));
    expect(link.textContent).toBe('Go to first');
    link.click();
    expect(document.activeElement).toBe(open.find('first.ts', 'section'));
  });

  test('an earlier result of a cell that waits says so above it, pale, and nothing moves', async () => {
    const open = await openPage(CELLS, interpret);
    const tops = () => CELLS.map(({ name }) => open.find(name, 'hour-result').getBoundingClientRect().top);
    const before = tops();
    await open.engine.edit('first.ts', 'fault 1 1');
    const problem = { message: 'This cell waits for first.', hint: '', line: null, column: null };
    open.engine.put('second.ts', { phase: 'waiting', problem });
    const note = await soon(() => open.find('second.ts', '.earlier-note'));
    expect(note.textContent).toBe('Earlier result. This cell waits for first.');
    expect(note.getBoundingClientRect().bottom).toBeLessThanOrEqual(tops()[1]!);
    expect(note.getBoundingClientRect().top).toBeGreaterThan(
      open.cell('second.ts').getBoundingClientRect().top,
    );
    expect(Number(getComputedStyle(open.find('second.ts', 'hour-result')).opacity)).toBeLessThan(0.7);
    expect(tops()[0]).toBe(before[0]);
    note.querySelector('button')!.click();
    expect(document.activeElement).toBe(open.find('first.ts', 'section'));
    await open.engine.edit('second.ts', '2');
    await soon(() => expect(open.cell('second.ts').querySelector('.earlier-note')).toBeNull());
  });

  test('a result that waits for a cell that was deleted names it', async () => {
    const open = await openPage(CELLS, interpret);
    const message = 'This cell waits for gone, which does not exist.';
    open.engine.put('second.ts', { phase: 'waiting', problem: { message, hint: '', line: 1, column: 1 } });
    const note = await soon(() => open.find('second.ts', '.earlier-note'));
    expect(note.textContent).toBe('Earlier result. This cell waits for gone, which does not exist.');
  });

  test('failing and recovering is said aloud', async () => {
    const open = await openPage(CELLS, interpret);
    const said = () => open.page.querySelector('.page > .hidden-text')!.textContent;
    await open.engine.edit('first.ts', 'fault 1 1');
    await soon(() => expect(said()).toBe('first failed: this is wrong'));
    await open.engine.edit('first.ts', '1');
    await soon(() => expect(said()).toBe('first works again'));
  });

  test('a result that cannot be drawn says so and leaves the others alone', async () => {
    const bad = { view: 'table', caption: 'x' } as unknown as CellState['shown'];
    const open = await openPage(CELLS, (text) => ({ shown: text === '1' ? ['before', bad] : text }));
    expect(open.shown('first.ts')).toContain('before');
    expect(open.shown('first.ts')).toContain('This result cannot be drawn');
    expect(open.shown('third.ts')).toBe('3');
  });
});

describe('the page stays where it is', () => {
  test('while a cell runs it keeps its last result, its element and its height', async () => {
    const open = await openPage(CELLS, interpret);
    const shown = open.find('first.ts', '.shown > hour-result > div');
    const top = open.cell('third.ts').getBoundingClientRect().top;
    for (const phase of ['stale', 'running'] as const) {
      open.engine.put('first.ts', { phase });
      await soon(() => expect(open.find('first.ts', '.phase').classList).toContain(phase));
      expect(open.shown('first.ts')).toBe('1');
      expect(open.cell('third.ts').getBoundingClientRect().top).toBe(top);
    }
    await open.engine.edit('first.ts', '2');
    await soon(() => expect(open.shown('first.ts')).toBe('2'));
    expect(open.find('first.ts', '.shown > hour-result > div')).toBe(shown);
    expect(open.cell('third.ts').getBoundingClientRect().top).toBe(top);
  });
});

describe('the list of contents', () => {
  const PROSE = [
    { name: 'first.ts', text: '# Step *test*' },
    { name: 'second.ts', text: '## Checks\n\n### Detail' },
  ];
  const show: Interpret = (text) => ({ shown: text });

  test('leads to the cells whose results have headings, and starts folded on a narrow page', async () => {
    const open = await openPage(PROSE, show);
    const details = open.page.querySelector<HTMLDetailsElement>('.contents details')!;
    const entries = () => [...details.querySelectorAll('button')];
    expect(entries().map((entry) => entry.textContent)).toEqual(['Step test', 'Checks']);
    expect(details.open).toBe(true);
    entries()[1]!.click();
    expect(document.activeElement).toBe(open.find('second.ts', 'section'));
    await open.engine.edit('second.ts', '## Curve');
    await soon(() => expect(entries()[1]!.textContent).toBe('Curve'));
    await browser.viewport(390, 844);
    open.page.requestUpdate();
    await soon(() => expect(details.open).toBe(false));
  });

  test('is not there for a single heading', async () => {
    const open = await openPage(PROSE.slice(0, 1), show);
    expect(open.page.querySelector('.contents')).toBeNull();
  });
});

test('the way out of an editor is told while it has the focus', async () => {
  const open = await openPage(CELLS, interpret);
  const seen = () => getComputedStyle(open.find('first.ts', '.editor-hint')).visibility;
  expect(seen()).toBe('hidden');
  const height = open.cell('first.ts').offsetHeight;
  await focusEditor(open, 'first.ts');
  expect(seen()).toBe('visible');
  expect(open.cell('first.ts').offsetHeight).toBe(height);
});

test('the rail says in words which cell feeds which, and lights the path of the one in focus', async () => {
  const open = await openPage(CELLS, interpret);
  const knots = [...open.page.querySelectorAll<HTMLElement>('.knot')];
  expect(knots.map((knot) => knot.getAttribute('aria-label'))).toEqual([
    'first: reads nothing; feeds second',
    'second: reads first; feeds nothing',
    'third: reads nothing; feeds nothing',
  ]);
  knots[1]!.focus();
  await soon(() =>
    expect([...open.page.querySelectorAll('.knot.lit')].map((k) => (k as HTMLElement).dataset.knot)).toEqual([
      'first.ts',
      'second.ts',
    ]),
  );
  await soon(() => expect(open.page.querySelectorAll('.rail path.lit')).toHaveLength(1));
});

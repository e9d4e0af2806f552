import { describe, expect, test, vi } from 'vitest';
import { userEvent } from 'vitest/browser';
import { slider } from '../../src/view/controls.ts';
import { focusEditor, openPage } from './support/openPage.ts';
import { soon } from './support/soon.ts';
import { CELLS, interpret } from './support/threeCells.ts';

async function choose(
  open: Awaited<ReturnType<typeof openPage>>,
  cell: string,
  label: string,
): Promise<void> {
  open.find(cell, '.menu-button').focus();
  await userEvent.keyboard('{ArrowDown}');
  const items = await soon(() => {
    const found = [...open.cell(cell).querySelectorAll<HTMLElement>('[role="menuitem"]')];
    expect(found).not.toHaveLength(0);
    return found;
  });
  const item = items.find((one) => one.textContent === label)!;
  while (document.activeElement !== item) await userEvent.keyboard('{ArrowDown}');
  await userEvent.keyboard('{Enter}');
}

const names = (open: Awaited<ReturnType<typeof openPage>>) =>
  [...open.page.querySelectorAll<HTMLElement>('hour-cell')].map((cell) => cell.dataset.cell);

describe('cells', () => {
  test('are renamed in place and keep their editor', async () => {
    const open = await openPage(CELLS, interpret);
    const content = await focusEditor(open, 'third.ts');
    open.find('third.ts', 'button.cell-name').click();
    await soon(() => open.find('third.ts', 'input.cell-name'));
    await userEvent.keyboard('last{Enter}');
    await soon(() => expect(names(open)).toEqual(['first.ts', 'second.ts', 'last.ts']));
    expect(open.find('last.ts', '.cm-content')).toBe(content);
  });

  test('a name that is taken is refused with the sentence of the engine', async () => {
    const open = await openPage(CELLS, interpret);
    open.find('third.ts', 'button.cell-name').click();
    await soon(() => open.find('third.ts', 'input.cell-name'));
    await userEvent.keyboard('first{Enter}');
    const fault = await soon(() => open.find('third.ts', 'hour-cell-name .fault'));
    expect(fault.textContent).toBe('there is already a cell first');
    await userEvent.keyboard('{Escape}');
    await soon(() => expect(open.find('third.ts', 'button.cell-name').textContent).toBe('third'));
  });

  test('move by the menu, by keyboard alone', async () => {
    const open = await openPage(CELLS, interpret);
    await choose(open, 'third.ts', 'Move up');
    await soon(() => expect(names(open)).toEqual(['first.ts', 'third.ts', 'second.ts']));
  });

  test('are deleted and brought back to their place', async () => {
    const open = await openPage(CELLS, interpret);
    await choose(open, 'second.ts', 'Delete');
    await soon(() => expect(names(open)).toEqual(['first.ts', 'third.ts']));
    open.page.querySelector<HTMLElement>('.undo-offer button')!.click();
    await soon(() => expect(names(open)).toEqual(['first.ts', 'second.ts', 'third.ts']));
    expect(open.engine.state('second.ts').text).toBe('reads first.ts');
    expect(open.page.querySelector('.undo-offer')).toBeNull();
  });

  test('deleting one that others read leaves the place on the screen', async () => {
    const tall = 'x\n\n'.repeat(12);
    const cells = [
      { name: 'above.ts', text: tall },
      { name: 'gone.ts', text: tall },
      ...['after.ts', 'end.ts'].map((name) => ({ name, text: `reads gone.ts reads above.ts\n\n${tall}` })),
    ];
    const open = await openPage(cells, (text, name) => ({
      ...interpret(text, name, {}),
      shown: text,
      imports: name === 'gone.ts' ? ['above.ts'] : name === 'above.ts' ? [] : ['gone.ts'],
    }));
    scrollTo(0, scrollY + open.cell('gone.ts').getBoundingClientRect().top - 100);
    const { top } = open.cell('gone.ts').getBoundingClientRect();
    const feeds = open.find('above.ts', '.threads').offsetHeight;
    await choose(open, 'gone.ts', 'Delete');
    await soon(() => expect(open.cell('above.ts').querySelector('.threads')).toBeNull());
    await soon(() => expect(document.activeElement).toBe(open.find('after.ts', 'section')));
    expect(feeds).toBeGreaterThan(0);
    expect(open.cell('after.ts').getBoundingClientRect().top).toBeCloseTo(top, 0);
  });

  test('are added below another', async () => {
    const open = await openPage(CELLS, interpret);
    await choose(open, 'first.ts', 'Add prose below');
    await soon(() => expect(names(open)).toEqual(['first.ts', 'note-1.ts', 'second.ts', 'third.ts']));
    await soon(() => expect(document.activeElement).toBe(open.find('note-1.ts', '.cm-content')));
    await userEvent.keyboard('// x');
    await soon(() => expect(open.engine.state('note-1.ts').text).toMatch(/^\/\/ x/));
  });

  test('go back to their original text, one by one or all; only when changed', async () => {
    const open = await openPage(CELLS, interpret);
    const resetAll = () =>
      [...open.page.querySelectorAll<HTMLButtonElement>('.page-bar button')].find(
        (b) => b.textContent === 'Reset workbook',
      )!;
    expect(resetAll().disabled).toBe(true);
    await open.engine.edit('first.ts', '9');
    await open.engine.edit('third.ts', '8');
    await soon(() => expect(open.find('first.ts', '.changed').textContent).toBe('edited'));
    await choose(open, 'first.ts', 'Reset to the original text');
    await soon(() => expect(open.shown('first.ts')).toBe('1'));
    resetAll().click();
    await soon(() => expect(open.shown('third.ts')).toBe('3'));
    open.page.querySelector<HTMLElement>('.undo-offer button')!.click();
    await soon(() => expect(open.shown('third.ts')).toBe('8'));
  });

  test('a moved control alone can be reset, and brought back', async () => {
    const mass = slider({ label: 'Mass', min: 0, max: 100, step: 1, value: 70 });
    const open = await openPage(CELLS, (text, name, values) =>
      name === 'first.ts'
        ? { controls: [{ name: 'mass', control: mass, value: values.mass ?? 70 }] }
        : interpret(text, name, values),
    );
    const reset = () => [...open.page.querySelectorAll<HTMLButtonElement>('.page-bar button')].at(-1)!;
    const value = () => open.find<HTMLInputElement>('first.ts', 'input[type="range"]').value;
    expect(reset().disabled).toBe(true);
    await open.engine.setControl('first.ts', 'mass', 80);
    await soon(() => expect([reset().disabled, value()]).toEqual([false, '80']));
    reset().click();
    const undo = await soon(() => {
      const offer = open.page.querySelector<HTMLElement>('.undo-offer button');
      return offer ?? expect.unreachable('there is no offer yet');
    });
    await soon(() => expect(value()).toBe('70'));
    expect(reset().disabled).toBe(true);
    undo.click();
    await soon(() => expect(value()).toBe('80'));
  });

  test('fold their code, one by one or all', async () => {
    const open = await openPage(CELLS, interpret);
    const hidden = () => CELLS.map((cell) => open.find(cell.name, 'hour-editor').checkVisibility());
    open.find('first.ts', '.cell-buttons > button').click();
    await soon(() => expect(hidden()).toEqual([false, true, true]));
    open.page.querySelector<HTMLElement>('.page-bar button')!.click();
    await soon(() => expect(hidden()).toEqual([false, false, false]));
  });

  test('every change says that there is something to save', async () => {
    const open = await openPage(CELLS, interpret);
    const heard = vi.fn();
    document.body.addEventListener('hour-changed', heard);
    await choose(open, 'third.ts', 'Move up');
    expect(heard).toHaveBeenCalledTimes(1);
    await choose(open, 'second.ts', 'Delete');
    expect(heard).toHaveBeenCalledTimes(2);
  });
});

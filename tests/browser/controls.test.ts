import { describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import { choice, keeper, numberField, slider, textField, toggle } from '../../src/view/controls.ts';
import type { CellState } from '../../src/workbook/engineTypes.ts';
import { type OpenPage, openPage } from './support/openPage.ts';
import { soon } from './support/soon.ts';

const CONTROLS = {
  meter: slider({ label: 'Meter repeatability', unit: 'mmol/L', min: 0, max: 0.5, step: 0.05, value: 0.15 }),
  mass: numberField({ label: 'Body mass', unit: 'kg', min: 30, max: 200, step: 0.1, value: 68.5 }),
  sport: choice({
    label: 'Sport',
    value: 'cycling',
    options: ['cycling', 'running'].map((value) => ({ value, label: value })),
  }),
  unit: choice({
    label: 'Unit',
    value: 'a',
    options: [...'abcdef'].map((value) => ({ value, label: value })),
  }),
  log: toggle({ label: 'Logarithmic', value: false }),
  kept: keeper({ label: 'Keep this', offer: { figure: 250 } }),
  who: textField({ label: 'Athlete', value: '' }),
};

function controls(values: Record<string, unknown>): CellState['controls'] {
  return Object.entries(CONTROLS).map(([name, control]) => ({
    name,
    control,
    value: values[name] ?? control.value,
  }));
}

const openControls = () =>
  openPage([{ name: 'settings.ts', text: '' }], (_text, _name, values) => ({ controls: controls(values) }));

const value = (open: OpenPage, name: string) =>
  open.engine.state('settings.ts').controls.find((entry) => entry.name === name)!.value;

function drag(range: HTMLInputElement, to: number): void {
  range.value = String(to);
  range.dispatchEvent(new Event('input', { bubbles: true }));
}

describe('slider', () => {
  test('is live while it is dragged; of moves that come too fast the newest wins', async () => {
    const open = await openControls();
    const range = open.find<HTMLInputElement>('settings.ts', 'input[type="range"]');
    const original = open.engine.setControl.bind(open.engine);
    const arrived: unknown[] = [];
    let most = 0;
    let flying = 0;
    open.engine.setControl = async (...move) => {
      arrived.push(move[2]);
      most = Math.max(most, ++flying);
      await new Promise((done) => setTimeout(done, 30));
      await original(...move);
      flying--;
    };
    for (const to of [0.2, 0.25, 0.3, 0.35]) drag(range, to);
    await soon(() => expect(value(open, 'meter')).toBe(0.35));
    expect(arrived).toEqual([0.2, 0.35]);
    expect(most).toBe(1);
  });

  test('shows where the reader put it, not where an older answer has it', async () => {
    const open = await openControls();
    const range = open.find<HTMLInputElement>('settings.ts', 'input[type="range"]');
    const entry = open.find<HTMLInputElement>('settings.ts', 'hour-slider .number-entry');
    drag(range, 0.2);
    drag(range, 0.45);
    await open.page.updateComplete;
    await soon(() => expect(entry.value).toBe('0.45'));
    expect(range.value).toBe('0.45');
  });

  test('takes a typed number, with a decimal comma too, and refuses one out of range in a sentence', async () => {
    const open = await openControls();
    const entry = open.find<HTMLInputElement>('settings.ts', 'hour-slider .number-entry');
    await userEvent.fill(entry, '0,3');
    await userEvent.keyboard('{Enter}');
    await soon(() => expect(value(open, 'meter')).toBe(0.3));
    await userEvent.fill(entry, '7');
    await userEvent.keyboard('{Enter}');
    const fault = await soon(() => open.find('settings.ts', 'hour-slider .fault'));
    expect(fault.textContent).toBe('Meter repeatability must be between 0 and 0.5 mmol/L');
    expect(value(open, 'meter')).toBe(0.3);
    expect(entry.getAttribute('aria-invalid')).toBe('true');
  });
});

test('a keeper keeps what is offered, and lets go of it', async () => {
  const open = await openControls();
  const buttons = () => [...open.cell('settings.ts').querySelectorAll<HTMLElement>('hour-keeper button')];
  const words = () => buttons().map((button) => button.textContent);
  expect(words()).toEqual(['Keep this']);
  buttons()[0]!.click();
  await soon(() => expect(value(open, 'kept')).toEqual({ figure: 250 }));
  await soon(() => expect(words()).toEqual(['Keep this anew', 'Let go of what is kept']));
  buttons()[1]!.click();
  await soon(() => expect(value(open, 'kept')).toBeNull());
  await soon(() => expect(words()).toEqual(['Keep this']));
});

test('number, choice, toggle and text reach the engine', async () => {
  const open = await openControls();
  const entry = open.find<HTMLInputElement>('settings.ts', 'hour-number input');
  await userEvent.fill(entry, '70');
  await userEvent.keyboard('{Enter}');
  await soon(() => expect(value(open, 'mass')).toBe(70));
  await userEvent.clear(entry);
  await userEvent.keyboard('{Enter}');
  await soon(() => expect(open.engine.settings()['settings.ts#mass']).toEqual({ value: null, from: 'null' }));
  open.find('settings.ts', 'input[value="running"]').click();
  await soon(() => expect(value(open, 'sport')).toBe('running'));
  await userEvent.selectOptions(open.find('settings.ts', 'select'), 'd');
  await soon(() => expect(value(open, 'unit')).toBe('d'));
  open.find('settings.ts', 'input[type="checkbox"]').click();
  await soon(() => expect(value(open, 'log')).toBe(true));
  await userEvent.fill(open.find('settings.ts', 'hour-text input'), 'Invented');
  await userEvent.keyboard('{Enter}');
  await soon(() => expect(value(open, 'who')).toBe('Invented'));
});

test('every field has a name', async () => {
  const open = await openControls();
  const fields = [
    ...open.cell('settings.ts').querySelectorAll<HTMLInputElement>('.shown :is(input, select)'),
  ];
  const nameless = fields.filter(
    (field) => !field.getAttribute('aria-label') && (field.labels?.length ?? 0) === 0,
  );
  expect(fields.length).toBeGreaterThan(6);
  expect(nameless).toEqual([]);
});

test('a control of another cell is live where it is shown, and follows moves made elsewhere', async () => {
  const open = await openPage(
    [
      { name: 'settings.ts', text: '' },
      { name: 'panel.ts', text: '' },
    ],
    (_text, name, values) =>
      name === 'settings.ts' ? { controls: controls(values) } : { shown: CONTROLS.meter },
  );
  const there = open.find<HTMLInputElement>('panel.ts', 'input[type="range"]');
  drag(there, 0.4);
  await soon(() => expect(value(open, 'meter')).toBe(0.4));
  await open.engine.setControl('settings.ts', 'meter', 0.1);
  await soon(() => expect(there.value).toBe('0.1'));
});

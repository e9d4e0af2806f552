import axe from 'axe-core';
import { describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { GridValue } from '../../src/base/grid.ts';
import { sessionGrid } from '../../src/toolkit/sessionControls.ts';
import { stageGrid } from '../../src/toolkit/stages.ts';
import type { Grid } from '../../src/view/controls.ts';
import { type OpenPage, openPage } from './support/openPage.ts';
import { soon } from './support/soon.ts';

const CELL = 'table.ts';
const START = 'power (W),lactate\n100,1.1\n150,1.6\n';

async function openTable(control: Grid): Promise<OpenPage> {
  const open = await openPage([{ name: CELL, text: '' }], (_text, _name, values) => ({
    controls: [{ name: 'table', control, value: values.table ?? control.value }],
    shown: control,
  }));
  open.find(CELL, '[role="gridcell"]').click();
  await soon(() => expect(document.activeElement?.getAttribute('role')).toBe('gridcell'));
  return open;
}

const held = (open: OpenPage) => open.engine.state(CELL).controls[0]!.value as GridValue;
const panel = (open: OpenPage) => open.cell(CELL).querySelector<HTMLElement>('.brought-table');
const details = (open: OpenPage) => panel(open)!.querySelector('details')!;
const choice = (open: OpenPage, label: string) =>
  open.find<HTMLSelectElement>(CELL, `select[aria-label="${label}"]`);
const tool = (open: OpenPage, label: string) =>
  [...open.cell(CELL).querySelectorAll<HTMLButtonElement>('.tools button')].find(
    (button) => button.textContent === label,
  )!;
const says = (open: OpenPage, selector: string) => open.find(CELL, selector).textContent!.trim();

function paste(text: string): void {
  const clipboardData = new DataTransfer();
  clipboardData.setData('text/plain', text);
  document.activeElement!.dispatchEvent(
    new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
  );
}

describe('a table that was pasted', () => {
  test('tells what was read of it; folded, for nothing was guessed or left out', async () => {
    const open = await openTable(stageGrid({ csv: START }));
    expect(panel(open)).toBeNull();
    paste('power\tlactate\tHR\n120\t1,0\t110\n150\t1,4\t125\n180\t\t139');
    await soon(() =>
      expect(says(open, '.brought-table .hint')).toBe(
        'The text: headings in line 1. Numbers have a decimal comma. Read: 2 stages, from 3 rows. Left out: row 3 (no lactate).',
      ),
    );
    expect(details(open).open).toBe(false);
    await userEvent.click(open.find(CELL, '.brought-table summary'));
    await soon(() => expect(choice(open, 'HR: taken for').value).toBe('heart rate'));
  });

  test('that holds several tests asks for one, and Undo brings the others back', async () => {
    const open = await openTable(stageGrid({ csv: START }));
    paste('Probe\tpower\tlactate\nA\t120\t1.0\nA\t150\t1.4\nB\t130\t1.1\nB\t160\t2.4\nB\t190\t4.4');
    // Nobody knows the word yet.
    await soon(() => expect(details(open).open).toBe(true));
    await userEvent.selectOptions(choice(open, 'Probe: taken for'), 'athlete or date');
    await soon(() => expect(tool(open, 'Take this test')).toBeDefined());
    const list = [...panel(open)!.querySelectorAll('label')].find(({ textContent }) =>
      textContent!.startsWith('Test'),
    )!;
    await userEvent.selectOptions(list.querySelector('select')!, 'B');
    await userEvent.click(tool(open, 'Take this test'));
    await soon(() =>
      expect(held(open).rows).toEqual([
        ['130', '1.1'],
        ['160', '2.4'],
        ['190', '4.4'],
      ]),
    );
    expect(held(open).headings).toEqual(['power', 'lactate']);
    expect(says(open, '.brought-table .hint')).toContain(
      'Test “B”: 3 of 5 rows. Read: 3 stages, from 3 rows.',
    );
    expect(document.activeElement?.getAttribute('role')).toBe('gridcell');
    await userEvent.click(tool(open, 'Undo'));
    await soon(() => expect(held(open).rows).toHaveLength(5));
  });

  test('that could not be kept is not taken', async () => {
    const open = await openTable(stageGrid({ csv: START }));
    const before = held(open);
    const row = ['100', '1.0', ...Array.from({ length: 300 }, () => '1234.5678')].join(',');
    const headings = ['power', 'lactate', ...Array.from({ length: 300 }, (_, i) => `x${i}`)].join(',');
    paste([headings, ...Array.from({ length: 300 }, () => row)].join('\n'));
    await soon(() =>
      expect(says(open, '.fault')).toMatch(
        /^a table of 300 rows and 302 columns, more than can be kept here; /,
      ),
    );
    expect(held(open)).toEqual(before);
  });

  test('with a row for each test leads at once to the choice of one', async () => {
    const open = await openTable(stageGrid({ csv: START }));
    await userEvent.click(tool(open, 'Paste text…'));
    await userEvent.fill(
      open.find(CELL, 'textarea'),
      'id;lactate 100 W;lactate 150 W\nA;1,0;1,9\nB;1,1;2,2\n',
    );
    await userEvent.click(tool(open, 'Use this text'));
    await soon(() => expect(document.activeElement?.textContent).toBe('AB'));
    expect(says(open, '.message')).toBe('Read 2 rows. It holds 2 tests: say which to take');
    expect(details(open).open).toBe(false);
    await userEvent.click(tool(open, 'Take this test'));
    await soon(() =>
      expect(held(open).rows).toEqual([
        ['', '100 W', '1,0'],
        ['', '150 W', '1,9'],
      ]),
    );
    expect(says(open, '.brought-table .hint')).toContain('Read: 2 stages, from 2 rows.');
  });

  test('is forgotten only where its form cannot be relied on', async () => {
    const value = { headings: ['power', 'lactate'], rows: [['120', '1.0']] };
    const source = {
      brought: { text: 'x' },
      headingsAt: 1,
      headings: ['P', 'La'],
      guessed: [],
      about: ['As x.'],
    };
    const control = stageGrid({ csv: START });
    const of = (given: object) => openTable({ ...control, value: { ...value, ...given } as GridValue });
    expect(says(await of({ source }), '.brought-table .hint')).toBe('As x.');
    for (const broken of ['x', null, { ...source, headings: 7 }, { ...source, brought: { text: {} } }])
      expect(panel(await of({ source: broken }))).toBeNull();
  });

  test('with headings nobody knows is no dead end: said column by column, each with a way back', async () => {
    const open = await openTable(stageGrid({ csv: START }));
    const before = held(open);
    paste('Belastung\tLaktat\tHF Mittel\tHF Ende\n120\t1.0\t108\t110\n150\t1.4\t120\t125');
    await soon(() => expect(details(open).open).toBe(true));
    expect(says(open, '.message')).toBe(
      'Read 2 rows. It cannot be read yet: no column of intensity; expected a heading for power in W, speed in km/h or m/s, a pace or a split /500 m',
    );
    await userEvent.selectOptions(choice(open, 'Belastung: taken for'), 'power');
    await userEvent.selectOptions(choice(open, 'Laktat: taken for'), 'lactate');
    await userEvent.selectOptions(choice(open, 'HF Mittel: taken for'), 'heart rate');
    await soon(() => expect(says(open, '.brought-table .hint')).toContain('Read: 2 stages, from 2 rows.'));
    await userEvent.selectOptions(choice(open, 'HF Ende: taken for'), 'heart rate');
    await soon(() =>
      expect(held(open).headings).toEqual([
        'power (W)',
        'lactate (mmol/L)',
        'not used: HF Mittel',
        'heart rate (bpm)',
      ]),
    );
    expect(says(open, '.message')).toBe(
      'HF Ende is taken for heart rate (bpm). HF Mittel is not used any longer',
    );
    for (let step = 0; step < 5; step++) {
      tool(open, 'Undo').click();
      await new Promise(requestAnimationFrame);
    }
    await soon(() => expect(held(open)).toEqual(before));
    await soon(() => expect(panel(open)).toBeNull());
    tool(open, 'Redo').click();
    await soon(() => expect(panel(open)).not.toBeNull());
  });

  test('keeps what is typed into it when a column is corrected afterwards', async () => {
    const open = await openTable(stageGrid({ csv: START }));
    paste('speed\tlactate\n2.8\t1.0\n3.2\t1.4');
    await soon(() => expect(details(open).open).toBe(true));
    await userEvent.keyboard('3.0{Enter}');
    await soon(() => expect(held(open).rows[0]![0]).toBe('3.0'));
    expect([...choice(open, 'speed: unit').options].map(({ text }) => text)).toEqual([
      'not said',
      'km/h',
      'm/s',
      'm/min',
      'mph',
    ]);
    await userEvent.selectOptions(choice(open, 'speed: unit'), 'm/s');
    await soon(() => expect(held(open).headings[0]).toBe('speed (m/s)'));
    expect(held(open).rows[0]).toEqual(['3.0', '1.0']);
    // With another column it is no longer the table that came.
    tool(open, 'Add column').click();
    await soon(() => expect(held(open).headings).toHaveLength(3));
    await soon(() => expect(panel(open)).toBeNull());
  });
});

test.each(['light', 'dark'])('no barrier for those who do not see or use no mouse, %s', async (scheme) => {
  document.documentElement.style.colorScheme = scheme;
  const open = await openTable(stageGrid({ csv: START }));
  paste('Leistung (W)\tLaktat\tTempo\n120\t1.0\t88\n150\t1.4\t90');
  await soon(() => expect(details(open).open).toBe(true));
  await userEvent.selectOptions(choice(open, 'Tempo: taken for'), 'duration');
  await soon(() => expect(choice(open, 'Tempo: unit').value).toBe(''));
  const { violations } = await axe.run(open.find(CELL, 'hour-grid'));
  document.documentElement.style.colorScheme = '';
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
});

test('walking through a list by keys takes nothing from the columns that are only passed, and is one step', async () => {
  const open = await openTable(stageGrid({ csv: START }));
  paste('power\tlactate\tPuls\n120\t1.0\t110\n150\t1.4\t125');
  await soon(() => expect(details(open).open).toBe(true));
  choice(open, 'Puls: taken for').focus();
  await userEvent.keyboard('{ArrowDown}{ArrowDown}');
  await soon(() => expect(held(open).headings).toEqual(['not used: power', 'lactate', 'power (W)']));
  await userEvent.keyboard('heart');
  await soon(() => expect(held(open).headings).toEqual(['power', 'lactate', 'heart rate (bpm)']));
  expect(says(open, '.message')).toBe('Puls is taken for heart rate (bpm)');
  tool(open, 'Undo').click();
  await soon(() => expect(held(open).headings).toEqual(['power', 'lactate', 'Puls']));
});

test('what a unit gives away is taken, marked as guessed, and shown; a word of the reader ends the guess', async () => {
  const open = await openTable(stageGrid({ csv: START }));
  paste('Leistung (W)\tLaktat (mmol/l)\tTrittfrequenz\n120\t1.0\t88\n150\t1.4\t90');
  await soon(() => expect(details(open).open).toBe(true));
  expect(held(open).headings).toEqual(['power (W)', 'lactate (mmol/L)', 'Trittfrequenz']);
  const guessed = () =>
    [...panel(open)!.querySelectorAll('.guessed')].map((one) => one.parentElement!.textContent);
  expect(guessed()).toEqual(['Leistung (W) guessed by its unit', 'Laktat (mmol/l) guessed by its unit']);
  await userEvent.selectOptions(choice(open, 'Leistung (W): taken for'), 'not used');
  await soon(() => expect(guessed()).toHaveLength(1));
  expect(held(open).headings[0]).toBe('not used: Leistung (W)');
});

test('other tables get the same with words of their own', async () => {
  const open = await openTable(sessionGrid({ csv: 'rep,power (W),minute,lactate\n1,250,5,2.5\n' }));
  paste('Nr\tLeistung\tDauer\tLaktat\n1\t250\t5\t2.5\n2\t250\t5\t2.9');
  await soon(() => expect(details(open).open).toBe(true));
  const words = ['rep', 'power', 'duration', 'lactate'];
  for (const [i, name] of ['Nr', 'Leistung', 'Dauer', 'Laktat'].entries()) {
    await userEvent.selectOptions(choice(open, `${name}: taken for`), words[i]!);
    await soon(() => expect(choice(open, `${name}: taken for`).value).toBe(words[i]));
  }
  expect(says(open, '.brought-table .hint')).toContain('Read: 2 reps with 2 lactate samples, from 2 rows.');
});

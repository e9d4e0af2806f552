import { describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { GridMark, GridValue } from '../../src/base/grid.ts';
import { InputError } from '../../src/base/inputError.ts';
import { grid } from '../../src/view/controls.ts';
import { type OpenPage, openPage } from './support/openPage.ts';
import { soon } from './support/soon.ts';

const START: GridValue = {
  headings: ['power (W)', 'lactate'],
  rows: [
    ['100', '1.1'],
    ['150', '1.6'],
  ],
};

function check({ rows }: GridValue): GridMark[] {
  return rows.flatMap((row, at): GridMark[] =>
    Number.isNaN(Number(row[1]))
      ? [{ row: at, column: 1, tone: 'problem', text: `"${row[1]}" is not a number` }]
      : [],
  );
}

/** Comma-separated lines whose headings must name lactate. */
function read(text: string): GridValue {
  const [headings = [], ...rows] = text
    .trim()
    .split('\n')
    .map((line) => line.split(/[,\t]/));
  if (!headings.includes('lactate'))
    throw new InputError('line 1 has no column of lactate; expected one named lactate');
  return { headings, rows };
}

const stages = grid({ label: 'Stages', value: START, read, check, suggestions: ['heart rate', 'lactate'] });

async function openGrid(control = stages): Promise<OpenPage> {
  const open = await openPage([{ name: 'stages.ts', text: '' }], (_text, _name, values) => ({
    controls: [{ name: 'stages', control, value: values.stages ?? START }],
    shown: control,
  }));
  entry(open, 0, 0).click();
  await soon(() => expect(document.activeElement).toBe(entry(open, 0, 0)));
  return open;
}

const held = (open: OpenPage) => open.engine.state('stages.ts').controls[0]!.value as GridValue;
const rowsOf = (open: OpenPage) => [...open.cell('stages.ts').querySelectorAll('[role="grid"] tr')];
/** Row -1 is the heading row; the first entry of each row is its number. */
const entry = (open: OpenPage, row: number, column: number) =>
  rowsOf(open)[row + 1]!.children[column + 1] as HTMLElement;
const tool = (open: OpenPage, label: string) =>
  [...open.cell('stages.ts').querySelectorAll<HTMLButtonElement>('.tools button')].find(
    (button) => button.textContent === label,
  )!;
const says = (open: OpenPage, selector: string) => open.find('stages.ts', selector).textContent!.trim();

function paste(text: string, files: File[] = []): void {
  const clipboardData = new DataTransfer();
  if (text) clipboardData.setData('text/plain', text);
  for (const file of files) clipboardData.items.add(file);
  document.activeElement!.dispatchEvent(
    new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
  );
}

describe('by keyboard', () => {
  test('typing replaces, Enter goes down, Tab goes on, arrows move', async () => {
    const open = await openGrid();
    await userEvent.keyboard('120{Enter}');
    await soon(() => expect(held(open).rows[0]).toEqual(['120', '1.1']));
    await soon(() => expect(document.activeElement).toBe(entry(open, 1, 0)));
    await userEvent.keyboard('170{Tab}2.2{Enter}');
    await soon(() => expect(held(open).rows[1]).toEqual(['170', '2.2']));
    await userEvent.keyboard('{ArrowUp}{ArrowLeft}');
    await soon(() => expect(document.activeElement).toBe(entry(open, 0, 0)));
  });

  test('F2 edits what is there, Escape keeps it, Delete empties', async () => {
    const open = await openGrid();
    await userEvent.keyboard('{F2}9{Escape}');
    await soon(() => expect(document.activeElement).toBe(entry(open, 0, 0)));
    expect(held(open)).toEqual(START);
    await userEvent.keyboard('{F2}5{Enter}');
    await soon(() => expect(held(open).rows[0]![0]).toBe('1005'));
    await userEvent.keyboard('{Delete}');
    await soon(() => expect(held(open).rows[1]![0]).toBe(''));
  });

  test('Tab leaves after the last entry, and after Escape from anywhere', async () => {
    const open = await openGrid();
    const table = open.find('stages.ts', '[role="grid"]');
    await userEvent.keyboard('{Tab}{Tab}{Tab}');
    await soon(() => expect(document.activeElement).toBe(entry(open, 1, 1)));
    await userEvent.keyboard('{Tab}');
    expect(table.contains(document.activeElement)).toBe(false);
    entry(open, 0, 0).click();
    await soon(() => expect(document.activeElement).toBe(entry(open, 0, 0)));
    await userEvent.keyboard('{Escape}{Tab}');
    expect(table.contains(document.activeElement)).toBe(false);
  });

  test('edits are taken back and done again', async () => {
    const open = await openGrid();
    await userEvent.keyboard('1{Enter}2{Enter}');
    await soon(() => expect(held(open).rows.map((row) => row[0])).toEqual(['1', '2']));
    await userEvent.keyboard('{Control>}z{/Control}{Control>}z{/Control}');
    await soon(() => expect(held(open)).toEqual(START));
    await userEvent.keyboard('{Control>}y{/Control}');
    await soon(() => expect(held(open).rows[0]![0]).toBe('1'));
  });

  test('a heading is edited, with suggestions that are not in use', async () => {
    const open = await openGrid();
    await userEvent.keyboard('{ArrowUp}{Enter}');
    const input = await soon(() => open.find<HTMLInputElement>('stages.ts', 'input.entry-editor'));
    expect([...input.list!.options].map((option) => option.value)).toEqual(['heart rate']);
    await userEvent.fill(input, 'speed');
    await userEvent.keyboard('{Enter}');
    await soon(() => expect(held(open).headings).toEqual(['speed', 'lactate']));
  });

  test('one entry takes part in the tab order, and it is the active one', async () => {
    const open = await openGrid();
    await userEvent.keyboard('{ArrowDown}');
    await soon(() => {
      const stops = [...open.cell('stages.ts').querySelectorAll('[role="grid"] [tabindex="0"]')];
      expect(stops).toEqual([entry(open, 1, 0)]);
    });
  });
});

describe('rows and columns', () => {
  test('Start over goes back to the table that the code makes, with a way back', async () => {
    const open = await openGrid();
    await soon(() => expect(tool(open, 'Start over')).toHaveProperty('disabled', true));
    tool(open, 'Add row').click();
    await soon(() => expect(held(open).rows).toHaveLength(3));
    await soon(() => expect(tool(open, 'Start over')).toHaveProperty('disabled', false));
    tool(open, 'Start over').click();
    await soon(() => expect(held(open)).toEqual(START));
    tool(open, 'Undo').click();
    await soon(() => expect(held(open).rows).toHaveLength(3));
  });

  test('another table that is offered is taken over, with a way back', async () => {
    const value = { headings: ['speed (km/h)', 'lactate'], rows: [['12', '1.4']] };
    const open = await openGrid({ ...stages, offer: { from: 'the test at the top', value } });
    tool(open, 'Take over the test at the top').click();
    await soon(() => expect(held(open)).toEqual(value));
    await soon(() => expect(tool(open, 'Take over the test at the top').disabled).toBe(true));
    expect(says(open, '.message')).toBe('Taken over: the test at the top');
    tool(open, 'Undo').click();
    await soon(() => expect(held(open)).toEqual(START));
    expect(tool(await openGrid(), 'Take over the test at the top')).toBeUndefined();
  });

  test('an entry that is moved from elsewhere can be taken back here, too', async () => {
    const open = await openGrid();
    tool(open, 'Add row').click();
    await soon(() => expect(held(open).rows).toHaveLength(3));
    const moved = held(open).rows.map((row, i) => (i === 0 ? row.with(1, '1.9') : row));
    await open.engine.setControl('stages.ts', 'stages', { ...held(open), rows: moved });
    await soon(() => expect(entry(open, 0, 1).textContent).toBe('1.9'));
    tool(open, 'Undo').click();
    await soon(() => expect(held(open).rows[0]).toEqual(START.rows[0]));
    expect(held(open).rows).toHaveLength(3);
    tool(open, 'Redo').click();
    await soon(() => expect(held(open).rows[0]![1]).toBe('1.9'));
  });

  test('are added, inserted and removed, each with a way back', async () => {
    const open = await openGrid();
    tool(open, 'Add row').click();
    await soon(() => expect(held(open).rows).toHaveLength(3));
    await soon(() => expect(document.activeElement).toBe(entry(open, 2, 0)));
    tool(open, 'Remove row 3').click();
    await soon(() => expect(held(open)).toEqual(START));
    await soon(() => tool(open, 'Insert above row 2').click());
    await soon(() => expect(held(open).rows[1]).toEqual(['', '']));
    tool(open, 'Undo').click();
    await soon(() => expect(held(open)).toEqual(START));
    tool(open, 'Add column').click();
    await soon(() => open.find('stages.ts', 'input.entry-editor'));
    await userEvent.keyboard('heart rate{Enter}');
    await soon(() => expect(held(open).headings).toEqual(['power (W)', 'lactate', 'heart rate']));
    await soon(() => tool(open, 'Remove column heart rate').click());
    await soon(() => expect(held(open)).toEqual(START));
  });
});

describe('bringing in data', () => {
  test('a block from a spreadsheet goes in at the entry in focus and adds rows', async () => {
    const open = await openGrid();
    await userEvent.keyboard('{ArrowDown}');
    await soon(() => expect(document.activeElement).toBe(entry(open, 1, 0)));
    paste('200\t2.4\n250\t4.1\n');
    await soon(() =>
      expect(held(open).rows).toEqual([
        ['100', '1.1'],
        ['200', '2.4'],
        ['250', '4.1'],
      ]),
    );
  });

  test('a text with headings replaces the table', async () => {
    const open = await openGrid();
    paste('power\tlactate\n90\t0.9\n120\t1.0');
    await soon(() => expect(held(open).headings).toEqual(['power', 'lactate']));
    expect(says(open, '.message')).toBe('Read 2 rows');
  });

  test('a dropped file is read; one that cannot be read is named in a sentence and changes nothing', async () => {
    const open = await openGrid();
    const drop = (text: string) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([text], 'test.csv'));
      open
        .find('stages.ts', '.control.grid')
        .dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true }));
    };
    drop('power,glucose\n100,5');
    await soon(() =>
      expect(says(open, '.fault')).toBe('line 1 has no column of lactate; expected one named lactate'),
    );
    expect(held(open)).toEqual(START);
    drop('power,lactate\n100,1.0');
    await soon(() => expect(held(open).rows).toEqual([['100', '1.0']]));
    expect(open.cell('stages.ts').querySelector('.fault')).toBeNull();
    expect(says(open, '.message')).toBe('Read 1 row from test.csv');
  });

  test('text is pasted into the box and used', async () => {
    const open = await openGrid();
    tool(open, 'Paste text…').click();
    const box = await soon(() => open.find<HTMLTextAreaElement>('stages.ts', 'textarea'));
    await userEvent.fill(box, 'power,lactate\n60,1');
    tool(open, 'Use this text').click();
    await soon(() => expect(held(open).rows).toEqual([['60', '1']]));
    await soon(() => expect(open.cell('stages.ts').querySelector('textarea')).toBeNull());
  });
});

test('what is wrong is marked on the entry while it is typed, listed beneath, and the list leads there', async () => {
  const open = await openGrid();
  await userEvent.keyboard('{ArrowRight}1,1');
  await soon(() => expect(entry(open, 0, 1).getAttribute('aria-invalid')).toBe('true'));
  await userEvent.keyboard('{Enter}');
  await soon(() => expect(says(open, '.remarks')).toContain('"1,1" is not a number'));
  const described = entry(open, 0, 1).getAttribute('aria-describedby')!;
  expect(document.getElementById(described)!.textContent).toContain('Row 1, lactate');
  open.find('stages.ts', '.remarks .place').click();
  await soon(() => expect(document.activeElement).toBe(entry(open, 0, 1)));
  expect(held(open).rows[0]![1]).toBe('1,1');
});

test('of a long table the part around the active entry is drawn, and the keys and a button lead to the others', async () => {
  const open = await openGrid();
  paste(`power (W)\tlactate\n${Array.from({ length: 3000 }, (_, i) => `${i}\t1.0`).join('\n')}`);
  await soon(() => expect(held(open).rows).toHaveLength(3000));
  await soon(() => expect(rowsOf(open).length).toBeLessThan(2100));
  await userEvent.keyboard('{Control>}{End}{/Control}');
  await soon(() => expect(document.activeElement?.parentElement?.getAttribute('aria-rowindex')).toBe('3001'));
  await userEvent.keyboard('2.5{Enter}');
  await soon(() => expect(held(open).rows[2999]![1]).toBe('2.5'));
  tool(open, 'Earlier rows').click();
  await soon(() => expect(document.activeElement?.parentElement?.getAttribute('aria-rowindex')).toBe('1001'));
});

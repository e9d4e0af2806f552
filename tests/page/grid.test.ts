import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bringsHeadings, readBlock } from '../../src/page/controls/grid/clipboard.ts';
import * as edits from '../../src/page/controls/grid/edits.ts';
import { History } from '../../src/page/controls/grid/history.ts';
import { editingKey, movingKey } from '../../src/page/controls/grid/keys.ts';
import { OutsideMoves } from '../../src/page/controls/grid/outsideMoves.ts';
import { shownRows } from '../../src/page/controls/grid/shownRows.ts';

const GRID = {
  headings: ['power', 'lactate'],
  rows: [
    ['100', '1.1'],
    ['150', '1.6'],
  ],
};

describe('edits of a grid', () => {
  test('an entry and a heading', () => {
    expect(edits.withEntry(GRID, { row: 1, column: 0 }, '160').rows).toEqual([
      ['100', '1.1'],
      ['160', '1.6'],
    ]);
    expect(edits.withEntry(GRID, { row: -1, column: 1 }, 'La').headings).toEqual(['power', 'La']);
  });

  test('rows and columns come and go', () => {
    expect(edits.withRow(GRID, 1).rows[1]).toEqual(['', '']);
    expect(edits.withoutRow(GRID, 0).rows).toEqual([['150', '1.6']]);
    expect(edits.withColumn(GRID, 1, 'HR')).toEqual({
      headings: ['power', 'HR', 'lactate'],
      rows: [
        ['100', '', '1.1'],
        ['150', '', '1.6'],
      ],
    });
    expect(edits.withoutColumn(GRID, 0)).toEqual({ headings: ['lactate'], rows: [['1.1'], ['1.6']] });
  });

  test('a block that sticks out adds rows and columns', () => {
    const block = [
      ['1.7', '150'],
      ['3.0', '170'],
    ];
    expect(edits.withBlock(GRID, { row: 1, column: 1 }, block)).toEqual({
      headings: ['power', 'lactate', ''],
      rows: [
        ['100', '1.1', ''],
        ['150', '1.7', '150'],
        ['', '3.0', '170'],
      ],
    });
  });

  test('a block at the heading row replaces headings', () => {
    expect(edits.withBlock(GRID, { row: -1, column: 0 }, [['speed'], ['10']])).toEqual({
      headings: ['speed', 'lactate'],
      rows: [
        ['10', '1.1'],
        ['150', '1.6'],
      ],
    });
  });

  test('reading order goes through the headings first and ends', () => {
    expect(edits.following(GRID, { row: -1, column: 1 }, 1)).toEqual({ row: 0, column: 0 });
    expect(edits.following(GRID, { row: 0, column: 0 }, -1)).toEqual({ row: -1, column: 1 });
    expect(edits.following(GRID, { row: 1, column: 1 }, 1)).toBeNull();
    expect(edits.following(GRID, { row: -1, column: 0 }, -1)).toBeNull();
  });

  test('every edit keeps rows as long as the headings', () => {
    const spot = fc.record({ row: fc.integer({ min: -1, max: 1 }), column: fc.integer({ min: 0, max: 1 }) });
    const block = fc.array(fc.array(fc.string(), { minLength: 1, maxLength: 4 }), {
      minLength: 1,
      maxLength: 4,
    });
    fc.assert(
      fc.property(spot, block, (at, text) => {
        const grid = edits.withBlock(GRID, at, text);
        expect(grid.rows.every((row) => row.length === grid.headings.length)).toBe(true);
      }),
      { seed: 1 },
    );
  });
});

describe('text from the clipboard', () => {
  test('tabs and line ends', () => {
    expect(readBlock('100\t1.1\r\n150\t1.6\r\n')).toEqual([
      ['100', '1.1'],
      ['150', '1.6'],
    ]);
    expect(readBlock('a\t\tb\t')).toEqual([['a', '', 'b', '']]);
  });

  test('quoted entries keep line ends, tabs and quotes', () => {
    expect(readBlock('"two\nlines"\t"say ""so"""\nx\ty')).toEqual([
      ['two\nlines', 'say "so"'],
      ['x', 'y'],
    ]);
  });

  test('a quote that is no quotation stays', () => {
    expect(readBlock('5" plate\t"open')).toEqual([['5" plate', '"open']]);
  });

  test('a heading line tells a whole table from a block', () => {
    expect(bringsHeadings('power\tlactate\n100\t1.1')).toBe(true);
    expect(bringsHeadings('Stufe;Leistung (W);Laktat\n1;100;1,1')).toBe(true);
    expect(bringsHeadings('100\t1.1\n150\t1.6')).toBe(false);
    expect(bringsHeadings('rest\t0.9\n100\t1.1')).toBe(false);
    expect(bringsHeadings('power\tlactate')).toBe(false);
    expect(bringsHeadings('1,1\n1,6\n2,4')).toBe(false);
  });
});

describe('steps back and forth', () => {
  test('undo, redo, and a new value drops what was undone', () => {
    const history = new History<string>();
    history.record('a');
    history.record('b');
    expect(history.undo('c')).toBe('b');
    expect(history.undo('b')).toBe('a');
    expect(history.undo('a')).toBeUndefined();
    expect(history.redo('a')).toBe('b');
    history.record('b');
    expect(history.canRedo).toBe(false);
  });
});

describe('keys', () => {
  const key = (
    name: string,
    held: Partial<Record<'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey', boolean>> = {},
  ) => ({
    key: name,
    shiftKey: false,
    ctrlKey: false,
    metaKey: false,
    altKey: false,
    ...held,
  });

  test('moving about: letters start an entry, Alt and unknown keys are left alone', () => {
    expect(movingKey(key('7'))).toEqual({ do: 'edit', text: '7' });
    expect(movingKey(key('F2'))).toEqual({ do: 'edit' });
    expect(movingKey(key('z', { metaKey: true }))).toEqual({ do: 'undo' });
    expect(movingKey(key('Tab', { shiftKey: true }))).toEqual({ do: 'next', step: -1 });
    expect(movingKey(key('e', { altKey: true }))).toBeNull();
    expect(movingKey(key('F5'))).toBeNull();
  });

  test('editing: Enter goes down, arrows sideways stay in the text, headings keep up and down for suggestions', () => {
    expect(editingKey(key('Enter'), 0)).toEqual({ do: 'move', rows: 1, columns: 0 });
    expect(editingKey(key('ArrowLeft'), 0)).toBeNull();
    expect(editingKey(key('ArrowDown'), 0)).toEqual({ do: 'move', rows: 1, columns: 0 });
    expect(editingKey(key('ArrowDown'), -1)).toBeNull();
  });
});

describe('an entry that a picture moves', () => {
  const begin = () => {
    const history = new History<{ grid: typeof GRID; source: null }>();
    const moves = new OutsideMoves(history);
    const see = (lactates: string[]) =>
      moves.see({
        grid: { ...GRID, rows: GRID.rows.map(([power], i) => [power!, lactates[i]!]) },
        source: null,
      });
    see(['1.1', '1.6']);
    return { history, moves, see };
  };

  test('is one step back, however far it goes; another entry is another step', () => {
    const { history, see } = begin();
    see(['1.1', '1.7']);
    see(['1.1', '1.8']);
    see(['1.2', '1.8']);
    const lactates = (step: { grid: typeof GRID } | undefined) => step?.grid.rows.map((row) => row[1]);
    const now = { grid: GRID, source: null };
    expect(lactates(history.undo(now))).toEqual(['1.1', '1.8']);
    expect(lactates(history.undo(now))).toEqual(['1.1', '1.6']);
    expect(history.canUndo).toBe(false);
  });

  test('is none when it comes back to where it was', () => {
    const { history, see } = begin();
    see(['1.1', '1.7']);
    see(['1.1', '1.6']);
    expect(history.canUndo).toBe(false);
  });

  test('is none when the table itself made the change', () => {
    const { history, moves, see } = begin();
    moves.own({
      ...GRID,
      rows: [
        ['100', '1.1'],
        ['150', '9.9'],
      ],
    });
    see(['1.1', '9.9']);
    expect(history.canUndo).toBe(false);
  });
});

describe('rows that are drawn', () => {
  test('are all of a usual table', () => {
    expect(shownRows(12, 7, 3)).toEqual({ from: 0, until: 12 });
  });

  test('are of a long or wide one a part that holds the active row, whichever that is', () => {
    for (const [rows, columns] of [
      [5000, 2],
      [3000, 8],
      [400, 200],
    ] as const)
      for (let active = -1; active < rows; active++) {
        const { from, until } = shownRows(rows, columns, active);
        expect(from >= 0 && until <= rows && until - from < rows).toBe(true);
        expect((until - from) * columns).toBeLessThanOrEqual(4000);
        if (active >= 0) expect(from <= active && active < until).toBe(true);
      }
  });

  test('stay where they are while one moves within their middle', () => {
    expect(shownRows(3000, 10, 450)).toEqual(shownRows(3000, 10, 550));
  });
});

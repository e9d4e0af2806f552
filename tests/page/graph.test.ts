import { describe, expect, test } from 'vitest';
import { newCell } from '../../src/page/cell/templates.ts';
import { pathThrough, readersIn } from '../../src/page/graph.ts';
import { threads } from '../../src/page/rail/threads.ts';

//   a → b → d
//   a → c   e (alone)
//   c → d
const CELLS = [
  { name: 'a', imports: [] },
  { name: 'b', imports: ['a'] },
  { name: 'c', imports: ['a', 'missing'] },
  { name: 'd', imports: ['b', 'c'] },
  { name: 'e', imports: [] },
];

describe('the path of a cell', () => {
  test('readers are direct ones, in page order, each once', () => {
    const twice = { name: 'f', imports: ['a', 'a'] };
    const readers = readersIn([...CELLS, twice]);
    expect([...readers]).toEqual([
      ['a', ['b', 'c', 'f']],
      ['b', ['d']],
      ['c', ['d']],
      ['d', []],
      ['e', []],
      ['f', []],
    ]);
  });

  test('up and down, without cells that do not exist', () => {
    const path = pathThrough(CELLS, 'c');
    expect([...path.up]).toEqual(['a']);
    expect([...path.down]).toEqual(['d']);
  });

  test('a circle ends', () => {
    const circle = [
      { name: 'a', imports: ['b'] },
      { name: 'b', imports: ['a'] },
    ];
    expect([...pathThrough(circle, 'a').up].toSorted()).toEqual(['a', 'b']);
  });
});

describe('threads of the rail', () => {
  test('one for each cell that is read', () => {
    expect(threads(CELLS).map((thread) => [thread.from, thread.to])).toEqual([
      ['c', ['d']],
      ['a', ['b', 'c']],
      ['b', ['d']],
    ]);
  });

  test('threads that pass the same height have lanes of their own', () => {
    const lanes = new Map(threads(CELLS).map((thread) => [thread.from, thread.lane]));
    expect(lanes.get('a')).not.toBe(lanes.get('b'));
    expect(lanes.get('a')).not.toBe(lanes.get('c'));
    expect(lanes.get('b')).not.toBe(lanes.get('c'));
  });

  test('lanes are used again further down', () => {
    const chain = ['a', 'b', 'c', 'd'].map((name, i) => ({
      name,
      imports: i % 2 === 1 ? ['abcd'[i - 1]!] : [],
    }));
    expect(threads(chain).map((thread) => thread.lane)).toEqual([0, 0]);
  });
});

test('a new cell takes the first free name', () => {
  expect(newCell('code', ['cell-1.ts', 'cell-3.ts']).name).toBe('cell-2.ts');
  expect(newCell('prose', []).text).toContain('export default prose`');
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LIMITS, readFrameMessage } from '../../src/host/port.ts';
import { type FrameMessage, LIBRARY_NAMES } from '../../src/workbook/messages.ts';

const CHANGED = {
  kind: 'changed',
  revision: 3,
  runs: true,
  cells: [
    { name: '10-athlete.ts', text: 'export const mass = 70;\n' },
    { name: 'kurve-größe.ts', text: '' },
  ],
  settings: { '10-athlete.ts#mass': { value: { rows: [['1', '']], n: null }, from: '70' } },
};
const GOOD = [
  { kind: 'ready' },
  { kind: 'library', name: 'plot' },
  CHANGED,
  { kind: 'status', started: true, running: 1, failed: 0, waiting: 2, cells: 9 },
  { kind: 'snapshot', request: 7, cells: [{ name: 'a.ts', inShort: '', html: '<p>x</p>' }] },
  { kind: 'pong', request: 12 },
];

describe('messages of the frame', () => {
  test.each(GOOD)('$kind is read as it is', (message) => {
    expect(readFrameMessage(structuredClone(message))).toEqual(message);
  });

  test('what is not declared does not pass along', () => {
    const message = { kind: 'pong', request: 1, html: '<b>', url: 'https://x.example' };
    expect(readFrameMessage(message)).toEqual({ kind: 'pong', request: 1 });
  });

  const cells = (...given: unknown[]) => ({ ...CHANGED, cells: given });
  const circle: Record<string, unknown> = {};
  circle.self = circle;
  test.each([
    ['an unknown kind', { kind: 'navigate', url: 'https://x.example' }],
    ['no object', 'ready'],
    ['an unknown library', { kind: 'library', name: '../secret.js' }],
    ['a library name in an array', { kind: 'library', name: ['plot'] }],
    ['a negative revision', { ...CHANGED, revision: -1 }],
    ['a run that is neither', { ...CHANGED, runs: 1 }],
    ['a start that is neither', { kind: 'status', started: 1, running: 0, failed: 0, waiting: 0, cells: 1 }],
    ['a fractional request', { kind: 'pong', request: 0.5 }],
    ['two cells of one name', cells({ name: 'a.ts', text: '' }, { name: 'a.ts', text: '' })],
    ['a path as a name', cells({ name: '../a.ts', text: '' })],
    ['a name with markup', cells({ name: '<b>.ts', text: '' })],
    ['a text that is none', cells({ name: 'a.ts', text: { toString: null } })],
    [
      'too many cells',
      cells(...Array.from({ length: LIMITS.cells + 1 }, (_, i) => ({ name: `c${i}.ts`, text: '' }))),
    ],
    ['a text too long', cells({ name: 'a.ts', text: 'x'.repeat(LIMITS.cellLength + 1) })],
    ['a circular setting', { ...CHANGED, settings: { 'a.ts#x': { value: circle, from: '0' } } }],
    ['a setting that is no data', { ...CHANGED, settings: { 'a.ts#x': { value: new Map(), from: '0' } } }],
    ['a setting that is no number', { ...CHANGED, settings: { 'a.ts#x': { value: Number.NaN, from: '0' } } }],
    [
      'markup that is none',
      { kind: 'snapshot', request: 1, cells: [{ name: 'a.ts', inShort: '', html: 5 }] },
    ],
  ])('%s is refused', (_, message) => {
    expect(readFrameMessage(message)).toBeNull();
  });

  test('a setting named __proto__ changes no prototype', () => {
    const settings = JSON.parse('{"__proto__": {"value": 1, "from": "0"}}');
    const message = readFrameMessage({ ...CHANGED, settings });
    expect(message).toMatchObject({ kind: 'changed' });
    expect(Object.getPrototypeOf((message as typeof CHANGED).settings)).toBe(Object.prototype);
  });
});

/** Every shape that may come out, checked field by field and written down apart from the reader itself. */
function isDeclared(message: FrameMessage): boolean {
  const fields = Object.keys(message).sort().join();
  const count = (value: number) => Number.isSafeInteger(value) && value >= 0;
  const text = (value: unknown) => typeof value === 'string';
  switch (message.kind) {
    case 'ready':
      return fields === 'kind';
    case 'library':
      return fields === 'kind,name' && LIBRARY_NAMES.includes(message.name);
    case 'pong':
      return fields === 'kind,request' && count(message.request);
    case 'status':
      return (
        fields === 'cells,failed,kind,running,started,waiting' &&
        typeof message.started === 'boolean' &&
        [message.cells, message.failed, message.running, message.waiting].every(count)
      );
    case 'snapshot':
      return (
        fields === 'cells,kind,request' &&
        message.cells.every(
          (cell) => Object.keys(cell).join() === 'name,inShort,html' && Object.values(cell).every(text),
        )
      );
    case 'changed':
      return (
        fields === 'cells,kind,revision,runs,settings' &&
        typeof message.runs === 'boolean' &&
        message.cells.every(
          (cell) => Object.keys(cell).join() === 'name,text' && Object.values(cell).every(text),
        ) &&
        Object.values(message.settings).every((setting) => Object.keys(setting).join() === 'value,from')
      );
  }
}

/** Upper bound of the characters in a message, from the declared limits. */
const MOST = Math.max(
  LIMITS.htmlLength + LIMITS.cells * LIMITS.nameLength,
  LIMITS.workbookLength + LIMITS.cells * LIMITS.nameLength + LIMITS.settingsLength,
);

/** Characters in all texts of a value, keys included. */
function lengthOf(value: unknown): number {
  if (typeof value === 'string') return value.length;
  if (typeof value !== 'object' || value === null) return 0;
  return Object.entries(value).reduce((sum, [key, part]) => sum + key.length + lengthOf(part), 0);
}

describe('any message at all', () => {
  const RUNS = { numRuns: 1000, seed: 20261125 };
  const anything = fc.anything({
    withNullPrototype: true,
    withMap: true,
    withSet: true,
    withDate: true,
    withTypedArray: true,
    withBigInt: true,
    withSparseArray: true,
  });
  const count = fc.oneof({ weight: 9, arbitrary: fc.nat() }, fc.integer(), fc.double(), anything);
  const name = fc.oneof(fc.constantFrom('a.ts', 'b.ts', '../a.ts', '__proto__.ts', 'ä.ts'), fc.string());
  const cell = fc.record(
    {
      name,
      text: fc.oneof(fc.string(), anything),
      inShort: fc.string(),
      html: fc.oneof(fc.string(), anything),
    },
    { requiredKeys: ['name'] },
  );
  const setting = fc.record({ value: fc.oneof(fc.jsonValue({ maxDepth: 14 }), anything), from: fc.string() });
  /** Of the right kinds, with parts that are mostly plausible: these get far into the reader. */
  const plausible = fc.record({
    kind: fc.constantFrom(...GOOD.map((message) => message.kind)),
    name: fc.oneof(fc.constantFrom(...LIBRARY_NAMES), anything),
    request: count,
    revision: count,
    runs: fc.oneof({ weight: 9, arbitrary: fc.boolean() }, anything),
    started: fc.oneof({ weight: 9, arbitrary: fc.boolean() }, anything),
    running: count,
    failed: count,
    waiting: count,
    cells: fc.oneof(fc.array(cell, { maxLength: 6 }), count),
    settings: fc.oneof(fc.dictionary(fc.string(), setting), anything),
  });

  test.each([
    ['of any kind', anything],
    ['that looks like one', plausible],
  ])('%s is refused or read as a declared shape of bounded size, never thrown at', (_, messages) => {
    fc.assert(
      fc.property(messages, (data) => {
        const message = readFrameMessage(data);
        if (message === null) return;
        expect(isDeclared(message)).toBe(true);
        expect(lengthOf(message)).toBeLessThanOrEqual(MOST);
      }),
      RUNS,
    );
  });

  test('plausible messages do get through, so the property above says something', () => {
    const read = fc.sample(plausible, RUNS).map((data) => readFrameMessage(data)?.kind);
    expect(new Set(read)).toEqual(new Set([...GOOD.map((message) => message.kind), undefined]));
  });

  test('a message is bounded by the sum of its settings, not by each', () => {
    const value = 'x'.repeat(LIMITS.settingLength - 100);
    const many = (n: number) =>
      Object.fromEntries(Array.from({ length: n }, (_, i) => [`a.ts#x${i}`, { value, from: '' }]));
    expect(readFrameMessage({ ...CHANGED, settings: many(2) })).not.toBeNull();
    expect(readFrameMessage({ ...CHANGED, settings: many(12) })).toBeNull();
  });

  test('keeps its kind and is stable when one field of a good one is replaced', () => {
    fc.assert(
      fc.property(fc.constantFrom(...GOOD), fc.nat(), anything, (message, pick, value) => {
        const keys = Object.keys(message);
        const read = readFrameMessage({ ...message, [keys[pick % keys.length]!]: value });
        // Whatever passed is made of checked parts only: it survives a trip through JSON and a second reading.
        const text = JSON.stringify(read);
        if (read) expect(JSON.stringify(readFrameMessage(JSON.parse(text)))).toBe(text);
      }),
      RUNS,
    );
  });
});

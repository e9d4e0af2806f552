import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LIMITS, readFrameMessage } from '../../src/host/port.ts';

const CHANGED = {
  kind: 'changed',
  revision: 3,
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
  { kind: 'status', running: 1, failed: 0, waiting: 2, cells: 9 },
  { kind: 'snapshot', request: 7, cells: [{ name: 'a.ts', html: '<p>x</p>' }] },
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
    ['markup that is none', { kind: 'snapshot', request: 1, cells: [{ name: 'a.ts', html: 5 }] }],
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

describe('any message at all', () => {
  const KINDS = GOOD.map((message) => message.kind);
  const anything = fc.anything({
    withNullPrototype: true,
    withMap: true,
    withTypedArray: true,
    withBigInt: true,
  });

  test('is read or refused, never thrown at', () => {
    fc.assert(
      fc.property(anything, (data) => {
        const message = readFrameMessage(data);
        expect(message === null || KINDS.includes(message.kind)).toBe(true);
      }),
      { numRuns: 500, seed: 20261125 },
    );
  });

  test('keeps its kind and is stable when one field of a good one is replaced', () => {
    const good = fc.constantFrom(...GOOD);
    fc.assert(
      fc.property(good, fc.nat(), anything, (message, pick, value) => {
        const keys = Object.keys(message);
        const read = readFrameMessage({ ...message, [keys[pick % keys.length]!]: value });
        // Whatever passed is made of checked parts only: it survives a trip through JSON and a second reading.
        const text = JSON.stringify(read);
        if (read) expect(JSON.stringify(readFrameMessage(JSON.parse(text)))).toBe(text);
      }),
      { numRuns: 500, seed: 20261125 },
    );
  });
});

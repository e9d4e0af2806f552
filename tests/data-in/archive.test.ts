import { readdirSync, readFileSync } from 'node:fs';
import { deflateSync, unzipSync, type Zippable, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { unpack } from '../../src/data-in/archive.ts';
import { zipEntries } from '../../src/data-in/zipDirectory.ts';

const folder = new URL('files/spreadsheets/', import.meta.url);
const MEGABYTE = 1_000_000;
const PACKED = 20;
const SIZE = 24;

const all = () => true;
const bytes = (text: string) => new TextEncoder().encode(text);

function refusal(archive: Uint8Array): string {
  try {
    unpack(archive, 'f.xlsx', all);
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return (error as Error).message;
  }
  return expect.unreachable('it was unpacked');
}

/** The archive with another number in the directory's entries, at `place` of each. */
function saying(number: number, place: number, parts: Zippable): Uint8Array {
  const archive = zipSync(parts);
  const view = new DataView(archive.buffer);
  for (let i = 0; i < archive.length - 4; i++)
    if (view.getUint32(i, true) === 0x02014b50) view.setUint32(i + place, number, true);
  return archive;
}

/** `length` bytes that deflate to so many. */
function noise(length: number): Uint8Array {
  let state = 7;
  return Uint8Array.from({ length }, () => {
    state = (state * 48_271) % 2_147_483_647;
    return state >> 8;
  });
}

describe('honest archives', () => {
  const files = readdirSync(folder).filter((name) => name.endsWith('.xlsx'));

  test.each(files)('%s unpacks to what fflate makes of it at once', (name) => {
    const archive = new Uint8Array(readFileSync(new URL(name, folder)));
    const parts = unzipSync(archive);
    expect(Object.keys(parts).length).toBeGreaterThan(3);
    expect(Object.fromEntries(unpack(archive, name, all))).toEqual(parts);
  });

  test.each<[string, Uint8Array]>([
    ['text of many steps', bytes(Array.from({ length: 60_000 }, (_, i) => `${i * i} `).join(''))],
    ['what cannot be made shorter', noise(400_000)],
    ['first that, then emptiness', new Uint8Array([...noise(100_000), ...new Uint8Array(5 * MEGABYTE)])],
    ['nothing', new Uint8Array(0)],
  ])('%s, deflated or stored', (_, content) => {
    for (const level of [0, 6] as const) {
      const archive = zipSync({ 'a.xml': [content, { level }], 'ü.xml': [content, { level }] });
      const parts = unpack(archive, 'f', (name) => name === 'ü.xml');
      expect([...parts.keys()]).toEqual(['ü.xml']);
      expect(Buffer.compare(parts.get('ü.xml')!, content)).toBe(0);
    }
  });
});

describe('archives that do not say what is in them', () => {
  const SENTENCE =
    'f.xlsx: its part “a.xml” unpacks to more than the 40 bytes it is said to have; expected the file as a spreadsheet saves it';

  /** Unpacked any further, the broken rest would be met, and the archive called damaged. */
  function broken(archive: Uint8Array, after: number): Uint8Array {
    const [entry] = [...zipEntries(archive)];
    archive.fill(0xff, entry!.at + 40 + after, entry!.at + 30 + entry!.packedSize);
    return archive;
  }

  test('a part that swells is given up as soon as it is larger than it says', () => {
    const archive = saying(40, SIZE, { 'a.xml': new Uint8Array(20 * MEGABYTE) });
    expect(archive.length).toBeLessThan(30_000);
    expect(refusal(broken(archive, 2_000))).toBe(SENTENCE);
  });

  test('also where it begins like any other', () => {
    const content = new Uint8Array(40 * MEGABYTE);
    content.set(noise(50_000));
    const archive = saying(60_000, SIZE, { 'a.xml': content });
    expect(refusal(broken(archive, 50_000 + 20_000))).toBe(SENTENCE.replace('40', '60000'));
  });

  test('a part that is honest up to its last byte but one', () => {
    const archive = saying(99_999, SIZE, { 'a.xml': noise(100_000) });
    expect(refusal(archive)).toContain('unpacks to more than the 99999 bytes');
    const stored = saying(99_999, SIZE, { 'a.xml': [noise(100_000), { level: 0 }] });
    expect(refusal(stored)).toContain('unpacks to more than the 99999 bytes');
  });

  test('it is the same with the rest whole, and where the size is true the broken rest is met', () => {
    const whole = { 'a.xml': new Uint8Array(2 * MEGABYTE) };
    expect(refusal(saying(40, SIZE, whole))).toBe(SENTENCE);
    expect(refusal(broken(zipSync(whole), 500))).toContain('a damaged or encrypted archive');
  });

  test('parts that together say too much are refused before one is unpacked', () => {
    const parts = Object.fromEntries(['a', 'b', 'c'].map((name) => [name, noise(10)]));
    expect(unpack(saying(21 * MEGABYTE, SIZE, parts), 'f', all).size).toBe(3);
    const tooMuch = saying(22 * MEGABYTE, SIZE, parts);
    for (const { at } of [...zipEntries(tooMuch)]) tooMuch.fill(0xff, at + 31, at + 40);
    expect(refusal(tooMuch)).toBe('f.xlsx: unpacks to over 64 MB; expected a workbook with the test alone');
  });

  test('of several that understate their size the first is refused', () => {
    const zeros = new Uint8Array(2 * MEGABYTE);
    expect(refusal(saying(40, SIZE, { 'a.xml': zeros, 'b.xml': zeros, 'c.xml': zeros }))).toBe(SENTENCE);
  });

  test('parts that lie over one another, to be unpacked again and again', () => {
    const parts = { 'a.xml': noise(1_000), 'b.xml': noise(1_000), 'c.xml': noise(1_000) };
    expect(refusal(saying(3_000, PACKED, parts))).toContain('a damaged or encrypted archive');
  });

  test('long stretches that unpack to nothing', () => {
    const nothing = new Uint8Array(400_000); // a stored block of no bytes is five: 0, 0, 0 and the complement of 0
    for (let i = 0; i < nothing.length; i += 5) nothing.set([0, 0, 0, 0xff, 0xff], i);
    const deflated = new Uint8Array([...nothing, ...deflateSync(bytes('x'))]);
    const archive = zipSync({ 'a.xml': [deflated, { level: 0 }] });
    const view = new DataView(archive.buffer);
    for (let i = 0; i < archive.length - 4; i++)
      if (view.getUint32(i, true) === 0x02014b50) view.setUint16(i + 10, 8, true);
    expect(refusal(archive)).toContain('a damaged or encrypted archive');
  });
});

import { expect, test } from 'vitest';
import { decodeText } from '../../src/data-in/decode.ts';

const bytes = (...values: number[]) => Uint8Array.from(values);

test('UTF-8, with and without its mark', () => {
  expect(decodeText(new TextEncoder().encode('mmol·L⁻¹'))).toBe('mmol·L⁻¹');
  expect(decodeText(bytes(0xef, 0xbb, 0xbf, 0x61))).toBe('a');
});

test('UTF-16 as spreadsheets write it, either byte order', () => {
  expect(decodeText(bytes(0xff, 0xfe, 0x61, 0, 0xb7, 0))).toBe('a·');
  expect(decodeText(bytes(0xfe, 0xff, 0, 0x61, 0, 0xb7))).toBe('a·');
});

test('the one-byte encoding of older spreadsheets', () => {
  expect(decodeText(bytes(0x6d, 0xb7, 0x4c, 0x96))).toBe('m·L–');
});

test('a spreadsheet file or other binary is refused by name', () => {
  expect(() => decodeText(bytes(0x50, 0x4b, 3, 4, 20), 'test.xlsx')).toThrow(
    /^test\.xlsx: a spreadsheet or archive/,
  );
  expect(() => decodeText(bytes(1, 0, 2), 'x.bin')).toThrow(/^x\.bin: not a text file/);
});

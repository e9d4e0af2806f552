import { describe, expect, test } from 'vitest';
import {
  decimalsFor,
  formatChange,
  formatIntensity,
  formatNumber,
  formatPace,
  roundToError,
  withUnit,
} from '../../src/base/format.ts';

describe('numbers', () => {
  test('have one typographic minus, and none before a zero', () => {
    expect(formatNumber(-1.25, 1)).toBe('\u22121.3');
    expect(formatNumber(-0.04, 1)).toBe('0.0');
    expect(formatNumber(3, 2)).toBe('3.00');
    expect(formatChange(0.4, 1)).toBe('+0.4');
    expect(formatChange(-0.4, 1)).toBe('\u22120.4');
    expect(formatChange(0.004, 1)).toBe('0.0');
    expect(withUnit('3', 'W')).toBe('3\u202fW');
  });

  test.each([
    [342.9644, 2.02, '343'],
    [342.9644, 0.95, '343.0'],
    [342.9644, 0.98, '343'],
    [234.5, 28, '230'],
    [10.1349, 0.09, '10.13'],
    [-12.34, 0.5, '\u221212.3'],
    [4, 0, '4.00'],
    [4, Number.NaN, '4.00'],
  ])('%d with an error of %d is written %s', (value, error, text) => {
    expect(roundToError(value, error)).toBe(text);
  });

  test('decimals end at six', () => expect(decimalsFor(1e-12)).toBe(6));
});

describe('paces', () => {
  test.each([
    [5, '5:00'],
    [4.9917, '5:00'],
    [4.991, '4:59'],
    [59.999, '1:00:00'],
    [0.5, '0:30'],
    [61.5, '1:01:30'],
  ])('%d min is %s', (minutes, text) => expect(formatPace(minutes)).toBe(text));
});

describe('intensities', () => {
  test('in each unit, with the digits the error allows', () => {
    expect(formatIntensity(251.4, 'power', 'W')).toBe('251\u202fW');
    expect(formatIntensity(251.4, 'power', 'W', { error: 13 })).toBe('250\u202fW');
    expect(formatIntensity(251.4, 'power', 'W/kg', { bodyMass: 70, error: 5 })).toBe('3.59\u202fW/kg');
    expect(formatIntensity(251.4, 'power', 'W/kg')).toBe('–');
    expect(formatIntensity(12.34, 'speed', 'km/h')).toBe('12.3\u202fkm/h');
    expect(formatIntensity(12.34, 'speed', 'km/h', { error: 0.09 })).toBe('12.34\u202fkm/h');
    expect(formatIntensity(251.4321, 'power', 'W', { error: 0 })).toBe('251\u202fW');
    expect(formatIntensity(12.3456, 'speed', 'km/h', { error: 0.0001 })).toBe('12.35\u202fkm/h');
    expect(formatIntensity(12, 'speed', 'min/km')).toBe('5:00\u202f/km');
    expect(formatIntensity(202.5, 'power', 'min/500 m')).toBe('2:00\u202f/500 m');
  });
});

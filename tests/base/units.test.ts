import { describe, expect, test } from 'vitest';
import {
  convertIntensity,
  displayUnits,
  ergometerPower,
  ergometerSpeed,
  isPace,
  METRES_PER_MILE,
  minutesFor,
  speedFor,
} from '../../src/base/units.ts';

describe('paces and speeds', () => {
  test('12 km/h is 5:00 per km, 8:02.8 per mile, 2:30 for 500 m, 3.333 m/s', () => {
    expect(convertIntensity(12, 'speed', 'min/km')).toBe(5);
    expect(convertIntensity(12, 'speed', 'min/mile')).toBeCloseTo(8 + 2.8032 / 60, 6);
    expect(convertIntensity(12, 'speed', 'min/500 m')).toBe(2.5);
    expect(convertIntensity(12, 'speed', 'm/s')).toBeCloseTo(10 / 3, 12);
    expect(convertIntensity(12, 'speed', 'km/h')).toBe(12);
  });

  test('there and back', () => {
    for (const kmh of [5, 12.5, 21]) {
      for (const metres of [500, 1000, METRES_PER_MILE]) {
        expect(speedFor(minutesFor(kmh, metres), metres)).toBeCloseTo(kmh, 12);
      }
      expect(ergometerSpeed(ergometerPower(kmh))).toBeCloseTo(kmh, 12);
    }
  });
});

describe('rowing', () => {
  // The published conversion of air-braked ergometers, watts = 2.80/(seconds per metre)³: 2:00 is 202.5 W, 1:45 is
  // 302.3 W.
  test.each([
    [2, 202.5],
    [1.75, 302.3],
  ])('%d min for 500 m is %d W', (minutes, watts) => {
    expect(ergometerPower(speedFor(minutes, 500))).toBeCloseTo(watts, 1);
    expect(convertIntensity(watts, 'power', 'min/500 m')).toBeCloseTo(minutes, 3);
  });
});

describe('units that do not go together', () => {
  test('give null, never a number', () => {
    expect(convertIntensity(200, 'power', 'min/km')).toBeNull();
    expect(convertIntensity(200, 'power', 'km/h')).toBeNull();
    expect(convertIntensity(12, 'speed', 'W')).toBeNull();
    expect(convertIntensity(12, 'speed', 'W/kg', 70)).toBeNull();
    expect(convertIntensity(200, 'power', 'W/kg')).toBeNull();
    expect(convertIntensity(200, 'power', 'W/kg', 0)).toBeNull();
    expect(convertIntensity(0, 'speed', 'min/km')).toBeNull();
    expect(convertIntensity(0, 'power', 'min/500 m')).toBeNull();
    expect(convertIntensity(280, 'power', 'W/kg', 70)).toBe(4);
  });

  test('every unit offered can be shown', () => {
    for (const sport of ['cycling', 'running', 'rowing'] as const) {
      for (const axis of ['power', 'speed'] as const) {
        for (const unit of displayUnits(sport, axis, 70)) {
          expect(
            convertIntensity(axis === 'power' ? 200 : 12, axis, unit, 70),
            `${sport} ${unit}`,
          ).toBeGreaterThan(0);
        }
      }
    }
    expect(displayUnits('cycling', 'power')).toEqual(['W']);
    expect(isPace('min/km')).toBe(true);
    expect(isPace('W')).toBe(false);
  });
});

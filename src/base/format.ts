import type { Axis, DisplayUnit } from './units.ts';
import { convertIntensity, isPace } from './units.ts';

/** U+2212: the width of a digit, and never broken from its number. */
const MINUS = '\u2212';
/** U+202F, the narrow space that does not break, between a number and its unit. */
export const THIN_SPACE = '\u202f';

/** A number with a fixed count of decimals and a typographic minus. */
export function formatNumber(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  if (!(value < 0)) return text;
  const isZero = Number(text) === 0;
  return text.replace('-', isZero ? '' : MINUS);
}

/** A signed number for a change: +1.2, −0.4, 0.0. */
export function formatChange(value: number, decimals: number): string {
  const text = formatNumber(value, decimals);
  return Number(value.toFixed(decimals)) > 0 ? `+${text}` : text;
}

/** A formatted number and its unit, between them a thin space that does not break: '250 W'. */
export const withUnit = (text: string, unit: string): string => `${text}${THIN_SPACE}${unit}`;

/**
 * Running text with each number and its unit on one line: 95 %, 4 mmol/L.
 *
 * @example
 * unbroken('4 mmol/L at 95 % of 250 W') === '4\u202fmmol/L at 95\u202f% of 250\u202fW' // true
 */
export const unbroken = (text: string): string =>
  text.replace(
    /(\d) (?=(?:%|mmol\/L|W|W\/kg|min|h|s|km\/h|m|kg|g\/h|g|kcal|bpm)(?![\w/]))/g,
    `$1${THIN_SPACE}`,
  );

/**
 * Decimals that a value with this standard deviation deserves: its last digit is in the decade of the first
 * digit of the error (our rule). Negative when whole tens are meant.
 *
 * @example
 * decimalsFor(2.3) // 0
 * decimalsFor(0.09) // 2
 * decimalsFor(28) // -1
 */
export function decimalsFor(error: number): number {
  if (!(error > 0) || !Number.isFinite(error)) return 2;
  // Rounded to one digit first, so that 0.098 counts as 0.1.
  const exponent = Math.floor(Math.log10(Number(error.toPrecision(1))));
  return Math.min(6, -exponent);
}

/**
 * A value written to what its standard deviation allows.
 *
 * @example
 * roundToError(342.9644, 2.02) // '343'
 * roundToError(10.1349, 0.09) // '10.13'
 * roundToError(234, 28) // '230'
 */
export function roundToError(value: number, error: number): string {
  const decimals = decimalsFor(error);
  if (decimals >= 0) return formatNumber(value, decimals);
  const step = 10 ** -decimals;
  return formatNumber(Math.round(value / step) * step, 0);
}

/**
 * Minutes as m:ss, or h:mm:ss from an hour on; whole seconds, never ':60'.
 *
 * @example
 * formatPace(4.9999) // '5:00'
 * formatPace(61.5) // '1:01:30'
 */
export function formatPace(minutes: number): string {
  const total = Math.round(minutes * 60);
  const two = (part: number) => String(part).padStart(2, '0');
  const [hours, minute, second] = [Math.floor(total / 3600), Math.floor((total % 3600) / 60), total % 60];
  return hours > 0 ? `${hours}:${two(minute)}:${two(second)}` : `${minute}:${two(second)}`;
}

/** Decimals that each unit is usually shown with when nothing is known of the error. */
const USUAL_DECIMALS: Record<DisplayUnit, number> = {
  W: 0,
  'W/kg': 2,
  'km/h': 1,
  'm/s': 2,
  'min/km': 0,
  'min/mile': 0,
  'min/500 m': 0,
};

/** Most decimals that are worth reading, however small the error. */
const MOST_DECIMALS: Record<DisplayUnit, number> = { ...USUAL_DECIMALS, 'km/h': 2 };

/**
 * An intensity on a test's axis as text in a display unit, with the unit; a dash where the unit does not apply.
 * With `error` (standard deviation on the test's axis) the digits are those the error allows.
 */
export function formatIntensity(
  intensity: number,
  axis: Axis,
  unit: DisplayUnit,
  { bodyMass = null, error = null }: { bodyMass?: number | null; error?: number | null } = {},
): string {
  const value = convertIntensity(intensity, axis, unit, bodyMass);
  if (value === null) return '–';
  if (isPace(unit)) return withUnit(formatPace(value), `/${unit.slice('min/'.length)}`);
  if (error === null) return withUnit(formatNumber(value, USUAL_DECIMALS[unit]), unit);
  const ownError = (error * value) / intensity;
  const text =
    decimalsFor(ownError) > MOST_DECIMALS[unit]
      ? formatNumber(value, MOST_DECIMALS[unit])
      : roundToError(value, ownError);
  return withUnit(text, unit);
}

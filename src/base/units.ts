/** The sport decides what intensity is measured in, and which columns a table is expected to have. */
export type Sport = 'cycling' | 'running' | 'rowing';
/** What an intensity axis measures: power in W, or speed in km/h. */
export type Axis = 'power' | 'speed';
/** Unit an intensity may be shown in. */
export type DisplayUnit = 'W' | 'W/kg' | 'km/h' | 'm/s' | 'min/km' | 'min/mile' | 'min/500 m';

/** Metres in the international mile (1959 agreement, exact). */
export const METRES_PER_MILE = 1609.344;

/** Power over speed cubed of an air-braked rowing ergometer, W/(m/s)³ (common practice). */
const ERGOMETER_DRAG = 2.8;

/** The unit that intensities on an axis have everywhere inside: W for power, km/h for speed. */
export const unitOf = (axis: Axis): 'W' | 'km/h' => (axis === 'power' ? 'W' : 'km/h');

/**
 * Minutes for `metres` at `kmh`.
 *
 * @example
 * minutesFor(12, 1000) // 5
 */
export const minutesFor = (kmh: number, metres: number): number => metres / 1000 / (kmh / 60);

/**
 * Speed in km/h that covers `metres` in `minutes`.
 *
 * @example
 * speedFor(5, 1000) // 12
 */
export const speedFor = (minutes: number, metres: number): number => metres / 1000 / (minutes / 60);

/**
 * Speed in km/h that a power in W gives on an air-braked rowing ergometer.
 *
 * Model     power = 2.80 · speed³, speed in m/s
 * Source    common practice of the sport
 *
 * @example
 * ergometerSpeed(2.8 * 4 ** 3) // 14.4
 */
export const ergometerSpeed = (watts: number): number => 3.6 * Math.cbrt(watts / ERGOMETER_DRAG);

/**
 * Power in W that a speed in km/h takes on an air-braked rowing ergometer; the inverse of `ergometerSpeed`.
 *
 * @example
 * ergometerPower(18) // 350
 */
export const ergometerPower = (kmh: number): number => ERGOMETER_DRAG * (kmh / 3.6) ** 3;

/** Whether a larger number in this unit means going slower. */
export const isPace = (unit: DisplayUnit): boolean => unit.startsWith('min/');

/** Metres that a pace counts its minutes for; null for units that are no pace. */
const PACE_METRES: Record<DisplayUnit, number | null> = {
  W: null,
  'W/kg': null,
  'km/h': null,
  'm/s': null,
  'min/km': 1000,
  'min/mile': METRES_PER_MILE,
  'min/500 m': 500,
};

/** Units that an intensity on this axis may be shown in, the usual one of the sport first. */
export function displayUnits(sport: Sport, axis: Axis, bodyMass: number | null = null): DisplayUnit[] {
  if (axis === 'speed') {
    return sport === 'rowing' ? ['min/500 m', 'm/s', 'km/h'] : ['km/h', 'min/km', 'min/mile', 'm/s'];
  }
  const units: DisplayUnit[] = sport === 'rowing' ? ['W', 'min/500 m'] : ['W'];
  return bodyMass === null ? units : [...units, 'W/kg'];
}

/**
 * An intensity on a test's axis in another unit; null where the two do not go together (a pace from cycling
 * power, W/kg without a body mass) or the intensity is not above 0 and the unit is a pace. Paces are minutes.
 *
 * Units     W or km/h → `unit`
 *
 * @example
 * convertIntensity(12, 'speed', 'min/km') // 5
 * convertIntensity(280, 'power', 'W/kg', 70) // 4
 */
export function convertIntensity(
  intensity: number,
  axis: Axis,
  unit: DisplayUnit,
  bodyMass: number | null = null,
): number | null {
  if (axis === 'power') return convertPower(intensity, unit, bodyMass);
  const metres = PACE_METRES[unit];
  if (metres !== null) return intensity > 0 ? minutesFor(intensity, metres) : null;
  if (unit === 'km/h') return intensity;
  return unit === 'm/s' ? intensity / 3.6 : null;
}

function convertPower(watts: number, unit: DisplayUnit, bodyMass: number | null): number | null {
  if (unit === 'W') return watts;
  if (unit === 'W/kg') return bodyMass !== null && bodyMass > 0 ? watts / bodyMass : null;
  // Only rowing shows power as time for 500 m: the relation is that of the air-braked ergometer.
  if (unit === 'min/500 m') return watts > 0 ? minutesFor(ergometerSpeed(watts), 500) : null;
  return null;
}

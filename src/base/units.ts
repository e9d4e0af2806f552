export type Sport = 'cycling' | 'running' | 'rowing';
/** What an intensity axis measures: power in W, or speed in km/h. */
export type Axis = 'power' | 'speed';
/** Unit an intensity may be shown in. */
export type DisplayUnit = 'W' | 'W/kg' | 'km/h' | 'm/s' | 'min/km' | 'min/mile' | 'min/500 m';

/** Metres in the international mile (1959 agreement, exact). */
export const METRES_PER_MILE = 1609.344;

export const unitOf = (axis: Axis): 'W' | 'km/h' => (axis === 'power' ? 'W' : 'km/h');

/** Minutes for `metres` at `kmh`. */
export const minutesFor = (kmh: number, metres: number): number => metres / 1000 / (kmh / 60);

import { METRES_PER_MILE } from '../base/units.ts';

/** A unit as written, and what turns a number in it into the quantity's own unit. */
export interface Unit {
  label: string;
  factor: number;
  /** For a pace: minutes for this many metres. */
  metres?: number;
}

/** A unit as heading writers vary it: 'mmol·L⁻¹', 'mmol / l' and 'mmol per L' all become comparable. */
export const squash = (unit: string): string =>
  unit
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll('\u2212', '-')
    .replace(/\bper\b/g, '/')
    .replace(/[\s.·*^⋅]/g, '');

/** A unit under its own label and each other spelling, as `squash` leaves them. */
export const spellings = (unit: Unit, ...written: string[]): Record<string, Unit> =>
  Object.fromEntries([unit.label, ...written].map((text) => [squash(text), unit]));

/** Unit of power. */
export const WATT: Unit = { label: 'W', factor: 1 };
/** Unit of heart rate. */
export const BPM: Unit = { label: 'bpm', factor: 1 };
/** Unit of lactate that everything is calculated in. */
export const MILLIMOLAR: Unit = { label: 'mmol/L', factor: 1 };
/**
 * What clinical laboratories report. By the molar mass of lactic acid, 90.08 g/mol, as their tables have it (common practice;
 * the ion alone weighs 1 % less): 1 mmol/L is 9.008 mg/dL.
 */
export const MG_PER_DL: Unit = { label: 'mg/dL', factor: 10 / 90.08 };
/** Unit of durations in tables. */
export const MINUTE: Unit = { label: 'min', factor: 1 };
/** Unit of body mass. */
export const KILOGRAM: Unit = { label: 'kg', factor: 1 };
/** Unit of oxygen uptake. */
export const ML_PER_MIN: Unit = { label: 'ml/min', factor: 1 };
/** Oxygen uptake by body mass: turned into ml/min where the mass is known. */
export const ML_PER_MIN_PER_KG: Unit = { label: 'ml/min/kg', factor: 1 };
/** A number that has no unit, such as a rating of perceived exertion. */
export const SCALE: Unit = { label: '', factor: 1 };
const per = (label: string, metres: number): Unit => ({ label, factor: 1, metres });
/** Unit of speed. */
export const KMH: Unit = { label: 'km/h', factor: 1 };
/** Unit of a rowing split. */
export const MINUTES_PER_500_M = per('min/500 m', 500);

/** Units of time by their spellings; factors to minutes. */
export const TIME_UNITS: Record<string, Unit> = {
  ...spellings(
    MINUTE,
    'mins',
    'minute',
    'minutes',
    'm:s',
    'm:ss',
    'mm:ss',
    'min:s',
    'min:sec',
    'h:mm:ss',
    'hh:mm:ss',
  ),
  ...spellings({ label: 's', factor: 1 / 60 }, 'sec', 'secs', 'second', 'seconds'),
};

/** Units of lactate by their spellings; factors to mmol/L. */
export const LACTATE_UNITS: Record<string, Unit> = {
  ...spellings(MILLIMOLAR, 'mmol', 'mmol l-1', 'mmol/litre', 'mmol/liter', 'mM', 'millimol/L'),
  ...spellings(MG_PER_DL, 'mg dl-1', 'mg/100 ml', 'mg%'),
};

/** Units of pace by their spellings; factors to minutes for the metres that each names. */
export const PACE_UNITS: Record<string, Unit> = {
  ...spellings(per('min/km', 1000), '/km', 'min km-1', 'mm:ss/km', 'm:ss/km', 'min:s/km', 'min:sec/km'),
  ...spellings({ label: 's/km', factor: 1 / 60, metres: 1000 }, 'sec/km'),
  ...spellings(
    per('min/mile', METRES_PER_MILE),
    '/mile',
    '/mi',
    'min/mi',
    'mm:ss/mile',
    'm:ss/mile',
    'mm:ss/mi',
    'm:ss/mi',
  ),
  ...spellings(MINUTES_PER_500_M, '/500 m', '500 m', 'mm:ss/500 m', 'm:ss/500 m'),
  ...spellings({ label: 's/500 m', factor: 1 / 60, metres: 500 }, 'sec/500 m'),
};

/** Units of distance by their spellings; factors to metres. */
export const DISTANCE_UNITS: Record<string, Unit> = {
  ...spellings({ label: 'm', factor: 1 }, 'metre', 'metres', 'meter', 'meters'),
  ...spellings({ label: 'km', factor: 1000 }, 'kilometre', 'kilometres', 'kilometer', 'kilometers'),
  ...spellings({ label: 'mile', factor: METRES_PER_MILE }, 'miles', 'mi'),
};

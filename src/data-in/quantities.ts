import { METRES_PER_MILE } from '../base/units.ts';
import {
  BPM,
  DISTANCE_UNITS,
  KILOGRAM,
  KMH,
  LACTATE_UNITS,
  MILLIMOLAR,
  MINUTE,
  MINUTES_PER_500_M,
  ML_PER_MIN,
  ML_PER_MIN_PER_KG,
  PACE_UNITS,
  SCALE,
  spellings,
  squash,
  TIME_UNITS,
  type Unit,
  WATT,
} from './unitSpellings.ts';

export { squash, type Unit } from './unitSpellings.ts';

/** What a column of a stage table can hold. */
export type Meaning =
  | 'stage'
  | 'duration'
  | 'power'
  | 'speed'
  | 'pace'
  | 'heartRate'
  | 'lactate'
  | 'rpe'
  | 'mass'
  | 'remark'
  | 'oxygenUptake'
  | 'minute'
  | 'distance'
  | 'longTime';

/** Something that a column may hold: by which names and units it is known, and what values it can have. */
export interface Quantity {
  /** As messages call it. */
  word: string;
  /** Names in headings, lower case. */
  names: string[];
  /** Accepted units; keys as `squash` leaves them. */
  units: Record<string, Unit>;
  /** Unit of a column that names none; null where that would be a guess. */
  usual: Unit | null;
  /** Lowest and highest possible value in the quantity's own unit (our rule: wide, to catch slips only). */
  range: [number, number];
  /** Own unit, '' for none. */
  unit: string;
  /** How an entry may look, for messages. */
  example: string;
}

/** Every quantity that headings may name; a name or unit that is added here is read everywhere. */
export const QUANTITIES: Record<Meaning, Quantity> = {
  stage: {
    word: 'stage',
    names: [
      'stage',
      'stages',
      'step',
      'level',
      'stage no',
      'stage no.',
      'stage number',
      'step no',
      'no',
      'no.',
      'nr',
      '#',
      'phase',
    ],
    units: {},
    usual: null,
    range: [0, 100],
    unit: '',
    example: 'a number, or rest',
  },
  duration: {
    word: 'duration',
    names: [
      'duration',
      'stage duration',
      'stage length',
      'stage time',
      'step duration',
      'time in stage',
      'time',
      'minutes',
      'seconds',
      'stage',
      'step',
    ],
    units: TIME_UNITS,
    usual: null,
    // 5 s to an hour.
    range: [5 / 60, 60],
    unit: 'min',
    example: '4, 4:00 or 240 s',
  },
  power: {
    word: 'power',
    names: [
      'power',
      'power output',
      'load',
      'workload',
      'work load',
      'work rate',
      'workrate',
      'intensity',
      'watt',
      'watts',
      'output',
      'stage',
      'step',
    ],
    units: spellings(WATT, 'watt', 'watts'),
    usual: WATT,
    range: [1, 2500],
    unit: 'W',
    example: '180',
  },
  speed: {
    word: 'speed',
    names: [
      'speed',
      'velocity',
      'running speed',
      'running velocity',
      'treadmill speed',
      'belt speed',
      'intensity',
      'load',
      'v',
      'stage',
      'step',
    ],
    units: {
      ...spellings(KMH, 'kmh', 'kph', 'km/hr', 'km h-1', 'km/hour'),
      ...spellings({ label: 'm/s', factor: 3.6 }, 'mps', 'm s-1', 'm/sec'),
      ...spellings({ label: 'm/min', factor: 0.06 }, 'm min-1'),
      ...spellings({ label: 'mph', factor: METRES_PER_MILE / 1000 }, 'mi/h', 'mile/h', 'miles/h'),
    },
    usual: null,
    range: [1, 45],
    unit: 'km/h',
    example: '12.5',
  },
  pace: {
    word: 'pace',
    names: ['pace', 'running pace', 'split', 'split time', '500 m split', '500m split', 'intensity', 'speed'],
    units: PACE_UNITS,
    usual: null,
    // As a speed, to which every pace is turned.
    range: [1, 45],
    unit: 'km/h',
    example: '4:30',
  },
  heartRate: {
    word: 'heart rate',
    names: ['heart rate', 'heartrate', 'heart-rate', 'hr', 'pulse', 'pulse rate', 'heart frequency'],
    units: spellings(BPM, 'beats/min', 'b/min', 'beats min-1', 'b min-1', '1/min', '/min', 'min-1', 'beats'),
    usual: BPM,
    range: [25, 250],
    unit: 'bpm',
    example: '152',
  },
  lactate: {
    word: 'lactate',
    names: ['lactate', 'lactate concentration', 'lactic acid', 'la', 'la-', 'lac', 'bla', 'bla-', 'lact'],
    units: LACTATE_UNITS,
    usual: MILLIMOLAR,
    range: [0.1, 35],
    unit: 'mmol/L',
    example: '1.8',
  },
  rpe: {
    word: 'perceived exertion',
    names: [
      'rpe',
      'borg',
      'borg scale',
      'borg rpe',
      'rating of perceived exertion',
      'perceived exertion',
      'exertion',
    ],
    units: spellings(
      SCALE,
      '6-20',
      '6–20',
      '0-10',
      '0–10',
      '1-10',
      '1–10',
      'cr10',
      'cr-10',
      'borg',
      'borg 6-20',
      'borg cr10',
    ),
    usual: SCALE,
    range: [0, 20],
    unit: '',
    example: '13',
  },
  mass: {
    word: 'body mass',
    names: ['mass', 'body mass', 'bodymass', 'weight', 'body weight', 'bodyweight'],
    units: {
      ...spellings(KILOGRAM, 'kilogram', 'kgs'),
      // International avoirdupois pound (1959 agreement, exact).
      ...spellings({ label: 'lb', factor: 0.45359237 }, 'lbs', 'pounds'),
    },
    usual: KILOGRAM,
    range: [20, 250],
    unit: 'kg',
    example: '70',
  },
  remark: {
    word: 'remark',
    names: ['remark', 'remarks', 'note', 'notes', 'comment', 'comments'],
    units: {},
    usual: null,
    range: [0, 0],
    unit: '',
    example: '',
  },
  oxygenUptake: {
    word: 'oxygen uptake',
    names: ['vo2', 'v̇o2', 'vo₂', 'oxygen uptake', 'o2 uptake', 'oxygen consumption', 'o2 consumption'],
    units: {
      ...spellings(ML_PER_MIN, 'ml min-1', 'mlmin'),
      ...spellings({ label: 'L/min', factor: 1000 }, 'L min-1', 'litre/min', 'liter/min'),
      ...spellings(
        ML_PER_MIN_PER_KG,
        'ml/kg/min',
        'ml kg-1 min-1',
        'ml min-1 kg-1',
        'ml/(kg min)',
        'ml/(min kg)',
      ),
    },
    usual: null,
    // Both kinds of unit: from rest per kg to the largest athletes in all.
    range: [2, 9000],
    unit: 'ml/min or ml/min/kg',
    example: '3200',
  },
  // Last, so that in a table of stages 'time' stays a duration.
  minute: {
    word: 'minute',
    names: ['time after', 'recovery time', 'recovery', 'time in bout'],
    units: TIME_UNITS,
    usual: MINUTE,
    range: [0, 120],
    unit: 'min',
    example: '3',
  },
  distance: {
    word: 'distance',
    names: ['distance', 'race', 'race distance'],
    units: DISTANCE_UNITS,
    usual: null,
    range: [50, 250_000],
    unit: 'm',
    example: '5000',
  },
  // Never told from a heading: what a duration becomes in tables of whole efforts and sessions.
  longTime: {
    word: 'time',
    names: [],
    units: TIME_UNITS,
    usual: null,
    // 5 s to a day.
    range: [5 / 60, 1440],
    unit: 'min',
    example: '20:00',
  },
};

/** The unit of a quantity that a text names, with or without a slash before it ('power/W', but also '/min'). */
export function unitNamed(text: string, { units }: Quantity): Unit | null {
  const written = squash(text);
  // Own keys only: a text may be 'constructor'.
  const key = [written, written.replace(/^\/+/, '')].find((candidate) => Object.hasOwn(units, candidate));
  return key === undefined ? null : units[key]!;
}

/** Rowing's own name for a pace: minutes for 500 m, whether it says so or not (common practice). */
export const SPLIT_UNIT = MINUTES_PER_500_M;

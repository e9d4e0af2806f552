import { describe, expect, test } from 'vitest';
import { readHeading } from '../../src/data-in/headings.ts';
import { QUANTITIES, unitNamed } from '../../src/data-in/quantities.ts';

/** Heading as written, what it holds, and the unit it is read in ('' for none, '?' where the unit stays open). */
const HEADINGS: [string, string, string][] = [
  ['Power (W)', 'power', 'W'],
  ['power/W', 'power', 'W'],
  ['POWER', 'power', 'W'],
  ['Watt', 'power', 'W'],
  ['watts', 'power', 'W'],
  ['W', 'power', 'W'],
  ['Power output [watts]', 'power', 'W'],
  ['workload, W', 'power', 'W'],
  ['load', 'power', 'W'],
  ['mean power (W)', 'power', 'W'],
  ['Intensity (W)', 'power', 'W'],
  ['Step (W)', 'power', 'W'],
  ['power_W', 'power', 'W'],
  ['speed km/h', 'speed', 'km/h'],
  ['Speed (km·h⁻¹)', 'speed', 'km/h'],
  ['running speed (kph)', 'speed', 'km/h'],
  ['KM/H', 'speed', 'km/h'],
  ['km h-1', 'speed', 'km/h'],
  ['Intensity [km/h]', 'speed', 'km/h'],
  ['velocity m/s', 'speed', 'm/s'],
  ['v (m·s−1)', 'speed', 'm/s'],
  ['speed in m/min', 'speed', 'm/min'],
  ['treadmill speed mph', 'speed', 'mph'],
  ['speed', 'speed', '?'],
  ['pace min/km', 'pace', 'min/km'],
  ['Pace (/km)', 'pace', 'min/km'],
  ['pace, min per km', 'pace', 'min/km'],
  ['min/mile', 'pace', 'min/mile'],
  ['pace (mm:ss/mi)', 'pace', 'min/mile'],
  ['split /500 m', 'pace', 'min/500 m'],
  ['Split (min/500m)', 'pace', 'min/500 m'],
  ['split', 'pace', 'min/500 m'],
  ['/500m', 'pace', 'min/500 m'],
  ['pace', 'pace', '?'],
  ['HR', 'heartRate', 'bpm'],
  ['hr (bpm)', 'heartRate', 'bpm'],
  ['Heart Rate', 'heartRate', 'bpm'],
  ['heart_rate', 'heartRate', 'bpm'],
  ['Heart rate [beats/min]', 'heartRate', 'bpm'],
  ['HR 1/min', 'heartRate', 'bpm'],
  ['heart rate (min⁻¹)', 'heartRate', 'bpm'],
  ['HR end of stage', 'heartRate', 'bpm'],
  ['pulse', 'heartRate', 'bpm'],
  ['bpm', 'heartRate', 'bpm'],
  ['lactate', 'lactate', 'mmol/L'],
  ['Blood lactate [mmol·L⁻¹]', 'lactate', 'mmol/L'],
  ['La', 'lactate', 'mmol/L'],
  ['[La]', 'lactate', 'mmol/L'],
  ['[La−] mmol/L', 'lactate', 'mmol/L'],
  ['bLa (mM)', 'lactate', 'mmol/L'],
  ['Lac (mmol/l)', 'lactate', 'mmol/L'],
  ['mmol/L', 'lactate', 'mmol/L'],
  ['lactate_mmol', 'lactate', 'mmol/L'],
  ['lactate (mg/dL)', 'lactate', 'mg/dL'],
  ['La [mg/100 ml]', 'lactate', 'mg/dL'],
  ['RPE', 'rpe', ''],
  ['RPE (6-20)', 'rpe', ''],
  ['Borg', 'rpe', ''],
  ['RPE CR10', 'rpe', ''],
  ['rating of perceived exertion', 'rpe', ''],
  ['stage', 'stage', '?'],
  ['Step', 'stage', '?'],
  ['#', 'stage', '?'],
  ['No.', 'stage', '?'],
  ['duration (min)', 'duration', 'min'],
  ['duration/min', 'duration', 'min'],
  ['Duration [s]', 'duration', 's'],
  ['stage duration', 'duration', '?'],
  ['time (mm:ss)', 'duration', 'min'],
  ['time', 'duration', '?'],
  ['minutes', 'duration', 'min'],
  ['seconds', 'duration', 's'],
  ['min', 'duration', 'min'],
  ['mass/kg', 'mass', 'kg'],
  ['Body weight (lb)', 'mass', 'lb'],
  ['weight', 'mass', 'kg'],
  ['Notes', 'remark', '?'],
  ['VO2 (ml/min)', 'oxygenUptake', 'ml/min'],
  ['V̇O₂ [mL·kg⁻¹·min⁻¹]', 'oxygenUptake', 'ml/min/kg'],
  ['oxygen uptake (L/min)', 'oxygenUptake', 'L/min'],
];

/** Headings near ours that hold something else. */
const OTHERS = [
  'HR max',
  'cadence',
  'VCO2 (ml/min)',
  'lac 1min post max',
  'end load W',
  'time to exhaustion',
  'power zone',
  'lactate threshold',
  'W/kg',
  'vo2max',
  'group',
  'constructor',
  'toString',
  'power zone (__proto__)',
  '',
  '120',
];

describe('headings of a stage table', () => {
  test.each(HEADINGS)('"%s" holds %s in %s', (text, meaning, unit) => {
    const heading = readHeading(text);
    expect(heading).toMatchObject({ meaning, unknownUnit: null });
    expect(heading!.unit?.label ?? '?').toBe(unit);
  });

  test.each(HEADINGS)('case and spaces do not matter: "%s"', (text, meaning) => {
    expect(readHeading(`  ${text.toUpperCase()} `)?.meaning).toBe(meaning);
  });

  test.each(OTHERS)('"%s" is none of ours', (text) => {
    expect(readHeading(text)).toBeNull();
  });

  test.each([
    ['lactate (ng/dL)', 'lactate', 'ng/dl'],
    ['HR (% max)', 'heartRate', '% max'],
    ['power [hp]', 'power', 'hp'],
    ['power/kg', 'power', '/kg'],
  ])('"%s" names a unit that is not known', (text, meaning, unknownUnit) => {
    expect(readHeading(text)).toMatchObject({ meaning, unknownUnit, unit: null });
  });
});

test('a mass of lactate is turned into an amount by the molar mass of its atoms', () => {
  // C₃H₆O₃ by the abridged standard atomic weights of IUPAC (Prohaska et al. 2022, Pure Appl Chem 94:573–600, from memory).
  const [carbon, hydrogen, oxygen] = [12.011, 1.008, 15.999];
  const gramsPerMole = 3 * carbon + 6 * hydrogen + 3 * oxygen;
  const unit = unitNamed('mg/dL', QUANTITIES.lactate)!;
  // mg/dL are 10 mg/L.
  expect(10 / unit.factor).toBeCloseTo(gramsPerMole, 2);
});

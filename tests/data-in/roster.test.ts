import { describe, expect, test } from 'vitest';
import { readRosterTest } from '../../src/data-in/roster.ts';
import { rosterColumn } from '../../src/data-in/rosterHeadings.ts';
import { rosterFromText } from './texts.ts';

const read = (text: string) =>
  rosterFromText(text).map((one) => {
    const { stages, restLactate, sport, bodyMass } = readRosterTest(one);
    return {
      id: one.id,
      sport,
      bodyMass,
      restLactate,
      x: stages.map(({ intensity }) => intensity),
      lactate: stages.map(({ lactate }) => lactate),
      heartRate: stages.map(({ heartRate }) => heartRate),
    };
  });

describe('a heading of a table of many tests', () => {
  test.each([
    ['lactate 120 W', 'lactate', '120', 'W'],
    ['La_120W', 'lactate', '120', 'W'],
    ['120 W', 'lactate', '120', 'W'],
    ['lactate (120 W)', 'lactate', '120', 'W'],
    ['La @ 12.5 km/h', 'lactate', '12.5', 'km/h'],
    ['HR at 12 km/h', 'heartRate', '12', 'km/h'],
    ['La1', 'lactate', '1', ''],
    ['lactate 1 (mmol/L)', 'lactate', '1', ''],
    ['stage 2 heart rate (bpm)', 'heartRate', '2', ''],
    ['power 3', 'power', '3', ''],
    ['speed 3 (km/h)', 'speed', '3', ''],
    ['speed_3 km/h', 'speed', '3', ''],
  ])('%s', (text, meaning, at, unit) => {
    expect(rosterColumn(text, 0)).toMatchObject({ kind: 'cell', meaning, at, unit });
  });

  test.each([
    ['athlete', 'name'],
    ['test_date', 'name'],
    ['sport', 'sport'],
    ['resting lactate', 'rest'],
    ['La rest (mmol/L)', 'rest'],
    ['VO2 120 W', 'other'],
    ['RPE (6-20)', 'other'],
    ['split /500 m', 'other'],
    ['power (W)', 'other'],
    ['__proto__', 'other'],
  ])('%s is %s', (text, kind) => {
    expect(rosterColumn(text, 0).kind).toBe(kind);
  });
});

describe('long form', () => {
  test('rows that stand together are a test; two columns of names tell apart together', () => {
    const text =
      'athlete;date;power (W);lactate;HR\nA1;d1;rest;1,0;\n;;100;1,1;110\n;;150;1,9;130\nA1;d2;100;1,0;108\nA1;d2;150;1,5;131\n';
    expect(read(text)).toEqual([
      {
        id: 'A1 d1',
        sport: 'cycling',
        bodyMass: null,
        restLactate: 1,
        x: [100, 150],
        lactate: [1.1, 1.9],
        heartRate: [110, 130],
      },
      {
        id: 'A1 d2',
        sport: 'cycling',
        bodyMass: null,
        restLactate: null,
        x: [100, 150],
        lactate: [1, 1.5],
        heartRate: [108, 131],
      },
    ]);
  });

  test('a sport of each test, and its unit', () => {
    const text =
      'id,sport,speed (m/s),lactate\n7,Running,3,1.2\n7,Running,4,2.0\n8,rowing,4,1.0\n8,rowing,4.5,1.7\n';
    expect(read(text).map(({ id, sport, x }) => ({ id, sport, x }))).toEqual([
      { id: '7', sport: 'running', x: [10.8, 14.4] },
      { id: '8', sport: 'rowing', x: [14.4, 16.2] },
    ]);
  });

  test('a fault names its line and leaves the other tests alone', () => {
    const tests = rosterFromText('id,power,lactate\n1,100,1\n1,150,x\n2,100,1\n2,150,2\n');
    expect(() => readRosterTest(tests[0]!)).toThrow(/^line 3, "lactate": "x" is not a number/);
    expect(readRosterTest(tests[1]!).stages).toHaveLength(2);
  });

  test('an unknown sport', () => {
    const [one] = rosterFromText('id,sport,power,lactate\n1,chess,100,1\n');
    expect(() => readRosterTest(one!)).toThrow('line 2: "chess" is no sport known here');
    expect(() => readRosterTest(one!, { file: 'r.csv' })).toThrow('r.csv, line 2: "chess" is no sport');
  });
});

describe('wide form', () => {
  test('intensities in the headings; blank cells are stages not done', () => {
    const text =
      'id,body mass (kg),La rest,La 100 W,HR 100 W,La 150 W,HR 150 W,La 200 W\na,70,1.1,1.0,110,1.4,131,3.0\nb,65,,0.9,105,2.0,140,\n';
    expect(read(text)).toEqual([
      {
        id: 'a',
        sport: 'cycling',
        bodyMass: 70,
        restLactate: 1.1,
        x: [100, 150, 200],
        lactate: [1, 1.4, 3],
        heartRate: [110, 131, null],
      },
      {
        id: 'b',
        sport: 'cycling',
        bodyMass: 65,
        restLactate: null,
        x: [100, 150],
        lactate: [0.9, 2],
        heartRate: [105, 140],
      },
    ]);
  });

  test('numbered stages with their own intensities', () => {
    const text =
      'athlete\tspeed 1 (km/h)\tlactate 1\tspeed 2 (km/h)\tlactate 2\na\t8\t1,0\t10\t1,6\nb\t9\t1,2\t11,5\t2,2\n';
    expect(read(text).map(({ id, sport, x, lactate }) => ({ id, sport, x, lactate }))).toEqual([
      { id: 'a', sport: 'running', x: [8, 10], lactate: [1, 1.6] },
      { id: 'b', sport: 'running', x: [9, 11.5], lactate: [1.2, 2.2] },
    ]);
  });

  test.each([
    ['id,La rest,lactate 100 W,lactate 140 W\n1,1.0,1.1,x\n', /^r\.csv, line 2, "lactate 140 W": "x" is not/],
    ['id,La rest,lactate 100 W,lactate 140 W\n1,x,1.1,1.2\n', /^r\.csv, line 2, "La rest": "x" is not/],
    ['id,power 1,lactate 1,power 2,lactate 2\n1,100,1.1,x,1.2\n', /^r\.csv, line 2, "power 2": "x" is not/],
    ['id,mass (kg),lactate 100 W\n1,x,1.1\n', /^r\.csv, line 2, "mass \(kg\)": "x" is not/],
  ])('a fault names the column it stands in: %j', (text, says) => {
    const [one] = rosterFromText(text, 'r.csv');
    expect(() => readRosterTest(one!, { file: 'r.csv' })).toThrow(says);
  });

  test('a stage with a lactate and no intensity', () => {
    const [one] = rosterFromText('id,power 1,lactate 1,lactate 2\n1,100,1.0,1.2\n');
    expect(() => readRosterTest(one!)).toThrow(/^line 2, "power": no intensity/);
  });
});

test.each([
  ['power,lactate\n100,1\n', 'line 1: no column tells the tests apart; expected a heading such as id'],
  ['id,power\n1,100\n', 'line 1: no column of lactate; expected lactate (mmol/L) with a row for each stage'],
])('%j', (text, sentence) => {
  expect(() => rosterFromText(text)).toThrow(sentence);
});

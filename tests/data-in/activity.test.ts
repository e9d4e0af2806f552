import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import type { Activity } from '../../src/data-in/activity/activity.ts';
import { alignSamples, readSampleTime } from '../../src/data-in/activity/samples.ts';
import { detectSteps } from '../../src/data-in/activity/steps.ts';
import { stretchesOf, usualAxis } from '../../src/data-in/activity/stretches.ts';
import {
  firstSpans,
  repsAmong,
  repTable,
  stageTable,
  withoutBreaks,
} from '../../src/data-in/activity/tables.ts';
import { readAnyFile } from '../../src/data-in/readAnyFile.ts';
import { readSession } from '../../src/data-in/session.ts';
import { readStepTest } from '../../src/data-in/stages.ts';
import { Random } from '../../src/numerics/random.ts';

const folder = new URL('files/activities/', import.meta.url);

async function read(name: string): Promise<Activity> {
  const file = await readAnyFile(readFileSync(new URL(name, folder)), name);
  return file.kind === 'recording' ? file.activity : expect.unreachable(`${name} is no recording`);
}

interface Expected {
  sport?: string;
  samples: number;
  /** Ends of the first spans, s. */
  ends: number[];
  by: 'laps' | 'steps';
  intensity: (number | null)[];
  /** bpm, worked out from make.py: 100 + 0.4·(level − 60) approached with a time constant of 25 s. */
  heartRate?: number[];
  pauses?: { start: number; end: number }[];
  notes?: string[];
  /** Part of a note of each stretch. */
  stretchNotes?: (string | null)[];
}

const ENDS = [90, 180, 270, 360, 450];
/** make.py sets the power to two watts about these, so that an even number of seconds has this mean. */
const POWERS = [100, 130, 160, 190, 220];
const FIVE = { samples: 450, ends: ENDS, intensity: POWERS };
const LAPS = { ...FIVE, by: 'laps' as const, sport: 'cycling' };
const STEPS = { ...FIVE, by: 'steps' as const };

const EXPECTED: Record<string, Expected> = {
  'laps.fit': LAPS,
  'laps.tcx': LAPS,
  'never-closed.fit': { ...LAPS, notes: ['The file was not closed by the device; it was read to its end.'] },
  'cut-off.fit': {
    samples: 269,
    ends: [90, 180, 269],
    by: 'steps',
    intensity: [100, 130, 160],
    notes: ['The file is damaged or cut off after 58 %; it was read up to there.'],
  },
  'big-endian-no-laps.fit': STEPS,
  'compressed-times.fit': STEPS,
  'developer-fields.fit': STEPS,
  'two-files-joined.fit': STEPS,
  'out-of-order.tcx': {
    ...STEPS,
    sport: 'cycling',
    notes: [
      'Samples were not in the order of their times and have been sorted.',
      'Left out: 1 sample at the time of another.',
    ],
  },
  'pause.fit': {
    ...STEPS,
    ends: [90, 180, 390, 480, 570],
    pauses: [{ start: 180, end: 300 }],
  },
  'pause.tcx': {
    ...STEPS,
    sport: 'cycling',
    ends: [90, 180, 390, 480, 570],
    pauses: [{ start: 180, end: 300 }],
  },
  'gap.tcx': { ...LAPS, samples: 390, stretchNotes: [null, '83 % of the window', null, null, null] },
  // Each sample is held for 7 to 9 s, so that even and odd seconds weigh differently: up to half a watt.
  'smart-recording.tcx': { ...LAPS, samples: 60 },
  // Of the minute 6 s were at 0 and the rest at 190 W: 171 W.
  'zeros-spikes-lost-signal.tcx': {
    ...LAPS,
    intensity: [100, 130, 160, 171, 220],
    notes: ['Left out: 1 value of power outside 0 to 2500.'],
    stretchNotes: [
      null,
      '10 s without a signal',
      '3 s with a value over',
      '6 s of the window were at zero',
      null,
    ],
  },
  'distance-only-run.tcx': {
    sport: 'running',
    samples: 450,
    ends: [450],
    by: 'steps',
    intensity: [10.8],
    notes: ['Speed was worked out from distance.'],
  },
  'positions.gpx': {
    sport: 'running',
    samples: 300,
    ends: [300],
    by: 'steps',
    intensity: [12],
    notes: ['Speed was worked out from positions.'],
  },
  'segments-latin1.gpx': {
    sport: 'running',
    samples: 300,
    ends: [360],
    by: 'steps',
    intensity: [12],
    pauses: [{ start: 150, end: 210 }],
    notes: ['Speed was worked out from positions.'],
    stretchNotes: ['A pause of 60 s is left out.'],
  },
  // Written by gpsbabel from positions.gpx.
  'converted-from-positions.fit': { samples: 300, ends: [300], by: 'steps', intensity: [12] },
};

test('every recording has an expected reading', () => {
  const files = readdirSync(folder).filter((name) => name !== 'make.py');
  expect(files.sort()).toEqual(Object.keys(EXPECTED).sort());
});

test.each(Object.entries(EXPECTED))('%s', async (name, expected) => {
  const activity = await read(name);
  const axis = usualAxis(activity);
  const { spans, by } = firstSpans(activity, axis);
  const stretches = stretchesOf(activity, spans, { axis });
  expect(activity.sport).toBe(expected.sport ?? null);
  expect(activity.seconds).toHaveLength(expected.samples);
  expect(activity.pauses).toEqual(expected.pauses ?? []);
  expect(activity.notes).toEqual(expected.notes ?? []);
  expect({ by, ends: spans.map(({ end }) => end) }).toEqual({ by: expected.by, ends: expected.ends });
  stretches.forEach(({ intensity, notes }, i) => {
    expect(Math.abs(intensity! - expected.intensity[i]!)).toBeLessThan(0.5);
    const note = expected.stretchNotes?.[i];
    if (note) expect(notes.join(' ')).toContain(note);
    else expect(notes).toEqual([]);
  });
});

test('heart rate is the mean of the last half minute, and missing where no sensor was', async () => {
  const activity = await read('laps.fit');
  const [first] = stretchesOf(activity, [{ start: 0, end: 90 }], { axis: 'power' });
  // From make.py: after 60 to 89 s on the way from 100 to 116 bpm, 116 − 16·0.96^(t+1), rounded to whole beats.
  const rates = Array.from({ length: 30 }, (_, i) => Math.round(116 - 16 * 0.96 ** (61 + i)));
  expect(first!.heartRate).toBeCloseTo(rates.reduce((a, b) => a + b) / 30, 1);
  const early = await read('developer-fields.fit');
  expect([...early.heartRate!.slice(0, 11)].map(Number.isNaN)).toEqual([...Array(10).fill(true), false]);
});

/** A recording from levels: intensity and length of each, noise as a share with memory from second to second. */
function simulated(levels: [number, number][], noise: number, seed: number): Float64Array {
  const random = new Random(seed);
  let state = 0;
  return Float64Array.from(
    levels.flatMap(([level, length]) =>
      Array.from({ length }, () => {
        state = 0.6 * state + 0.8 * random.normal();
        return Math.max(0, level * (1 + noise * state));
      }),
    ),
  );
}

const endsOf = (levels: [number, number][]) => {
  let end = 0;
  return levels.map(([, length]) => {
    end += length;
    return end;
  });
};

describe('steps are found', () => {
  const ramp: [number, number][] = [100, 130, 160, 190, 220, 250].map((power) => [power, 240]);
  const withBreaks = [8, 9, 10, 11, 12, 13].flatMap((speed): [number, number][] => [
    [speed, 180],
    [0, 30],
  ]);

  test.each([
    ['a step test', ramp, 0, 0],
    ['with noise of 5 %', ramp, 0.05, 6],
    ['with breaks of half a minute', withBreaks, 0.03, 1],
    [
      'unequal stages',
      [
        [120, 600],
        [200, 95],
        [260, 61],
        [100, 333],
      ] as [number, number][],
      0.04,
      3,
    ],
  ])('%s', (_, levels, noise, slack) => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const ends = detectSteps(simulated(levels, noise, seed)).map(({ end }) => end);
      expect(ends).toHaveLength(levels.length);
      ends.forEach((end, i) => {
        expect(Math.abs(end - endsOf(levels)[i]!)).toBeLessThanOrEqual(slack);
      });
    }
  });

  test('and none in steady riding, standing, or nothing', () => {
    for (const seed of [1, 2, 3]) expect(detectSteps(simulated([[200, 3600]], 0.1, seed))).toHaveLength(1);
    expect(detectSteps(new Float64Array(500))).toHaveLength(1);
    expect(detectSteps(new Float64Array(2))).toEqual([{ start: 0, end: 2 }]);
  });
});

/** A recording of one value a second. */
const recorded = (power: Float64Array, start = Date.UTC(2026, 2, 1, 9) / 1000): Activity => ({
  sport: 'cycling',
  start,
  seconds: Float64Array.from(power, (_, i) => i),
  power,
  speed: null,
  heartRate: power.map((value) => 60 + value / 3),
  cadence: null,
  laps: [],
  pauses: [],
  notes: [],
});

describe('lactate samples', () => {
  const spans = [0, 240, 480].map((start) => ({ start, end: start + 210 }));
  const activity = recorded(new Float64Array(10));

  test.each([
    ['3', { stage: 3 }],
    ['Stage 2', { stage: 2 }],
    ['+3:30', { second: 210 }],
    ['+1:00:05', { second: 3605 }],
    // The recording began at 9:00 UTC, 10:00 in a zone one hour ahead.
    ['10:03:30', { second: 210 }],
    ['10:04', { second: 240 }],
  ])('%s', (text, time) => {
    expect(readSampleTime(text, activity, 60)).toEqual(time);
  });

  test('a clock past midnight', () => {
    const late = recorded(new Float64Array(10), Date.UTC(2026, 2, 1, 23, 50) / 1000);
    expect(readSampleTime('0:10', late, 0)).toEqual({ second: 1200 });
  });

  test.each(['', 'x', '10.42', '0', '-3:00', '1:2:3:4'])('%j is no time of a sample', (text) => {
    expect(() => readSampleTime(text, activity, 0)).toThrow(InputError);
  });

  test('go to the stage that has just ended, or is about to', () => {
    const samples = [
      { at: { second: 225 }, lactate: 1.1 },
      { at: { stage: 3 }, lactate: 4 },
      { at: { second: 440 }, lactate: 1.9 },
    ];
    expect(alignSamples(spans, samples)).toEqual([1.1, 1.9, 4]);
  });

  test.each([
    [[{ at: { second: 20 }, lactate: 1 }], 'at minute 0:20 belongs to none of the 3 stages'],
    [[{ at: { stage: 4 }, lactate: 1 }], 'at stage 4 belongs to none of the 3 stages'],
    [[{ at: { second: 900 }, lactate: 1 }], 'at minute 15:00 belongs to none'],
    [
      [
        { at: { stage: 1 }, lactate: 1 },
        { at: { second: 215 }, lactate: 2 },
      ],
      'a second sample (minute 3:35) for stage 1',
    ],
  ])('%j', (samples, sentence) => {
    expect(() => alignSamples(spans, samples)).toThrow(sentence);
  });
});

test('a recording of a step test becomes a step test', () => {
  const levels: [number, number][] = [100, 140, 180, 220].flatMap((power): [number, number][] => [
    [power, 240],
    [0, 30],
  ]);
  const activity = recorded(simulated(levels, 0, 1));
  const { spans } = firstSpans(activity, 'power');
  const stages = withoutBreaks(stretchesOf(activity, spans, { axis: 'power' }));
  const lactates = alignSamples(
    stages,
    [1, 1.2, 2, 4.1].map((lactate, i) => ({ at: { second: 270 * i + 250 }, lactate })),
  );
  const { sport, stages: read } = readStepTest(stageTable(stages, 'power', lactates));
  expect(sport).toBe('cycling');
  expect(read.map(({ intensity, minutes, lactate }) => [intensity, minutes, lactate])).toEqual([
    [100, 4, 1],
    [140, 4, 1.2],
    [180, 4, 2],
    [220, 4, 4.1],
  ]);
  expect(read[3]!.heartRate).toBe(Math.round(60 + 220 / 3));
});

test('a recording of a session becomes reps', () => {
  const levels: [number, number][] = [
    [120, 600],
    ...[1, 2, 3].flatMap((): [number, number][] => [
      [260, 300],
      [110, 120],
    ]),
    [120, 300],
  ];
  const activity = recorded(simulated(levels, 0.02, 3));
  const reps = repsAmong(stretchesOf(activity, firstSpans(activity, 'power').spans, { axis: 'power' }));
  const { reps: read } = readSession(repTable(reps, 'power'));
  expect(read.map(({ number }) => number)).toEqual([1, 2, 3]);
  for (const { intensity, minutes } of read) {
    expect(Math.abs(intensity! - 260)).toBeLessThan(4);
    expect(Math.abs(minutes - 5)).toBeLessThanOrEqual(5 / 60);
  }
});

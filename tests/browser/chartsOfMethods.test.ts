import { afterEach, describe, expect, test } from 'vitest';
import {
  displayOf,
  EVERY_METHOD,
  HANDHELD,
  sampleThresholds,
  showConstruction,
  usableReadings,
} from '#hourline';
import type { Sport } from '../../src/base/units.ts';
import type { StepTest } from '../../src/physiology/stepTest.ts';
import { collisions, drawn, strays, texts, unfit } from './drawing.ts';

afterEach(() => {
  document.body.replaceChildren();
});

const testOf = (sport: Sport, rows: [number, number][]): StepTest => ({
  sport,
  axis: sport === 'running' ? 'speed' : 'power',
  stages: rows.map(([intensity, lactate], row) => ({
    row,
    intensity,
    lactate,
    heartRate: null,
    rpe: null,
    minutes: 4,
  })),
  restLactate: 1.1,
  stageMinutes: 4,
  bodyMass: 70,
  recovery: {
    samples: [1, 3, 5, 8, 12].map((minute, row) => ({ row, minute, lactate: [8, 8.4, 7.4, 5.6, 3][row]! })),
    mode: 'passive',
  },
  notes: [],
});

const TESTS: Record<string, StepTest> = {
  'a cyclist': testOf('cycling', [
    [120, 1.4],
    [150, 0.9],
    [180, 1.1],
    [210, 1.2],
    [240, 1.7],
    [270, 2.2],
    [300, 4.1],
    [330, 7.2],
  ]),
  'a runner': testOf('running', [
    [6, 1.1],
    [7, 1],
    [8, 1.3],
    [9, 2.4],
    [10, 1.8],
    [11, 2.8],
    [12, 4.7],
    [13, 7.5],
  ]),
  'four stages, raised': testOf('cycling', [
    [120, 5],
    [180, 5.2],
    [240, 6],
    [300, 9.2],
  ]),
  'lactate that only falls': testOf('cycling', [
    [120, 5],
    [160, 4],
    [200, 3.5],
    [240, 3],
    [280, 2.5],
    [320, 2.4],
    [360, 2],
  ]),
};
const ENTRIES = { LT1: [210, 225, 232], LT2: [280, 284] };

describe.each(Object.entries(TESTS))('every method drawn on %s', (_name, step) => {
  test.each([340, 900])('at %i px: labels apart and inside, every number a number', (width) => {
    const readings = usableReadings(step, { toExhaustion: true });
    const options = { visual: ENTRIES };
    const sampling = sampleThresholds(readings, {
      methods: EVERY_METHOD,
      options,
      error: HANDHELD,
      draws: 200,
      seed: 3,
    });
    const study = { readings, options, sampling, display: displayOf(step, readings) };
    for (const id of EVERY_METHOD) {
      const view = showConstruction(study, id);
      if (view === null) continue;
      const box = drawn(view, width);
      expect(unfit(box), id).toEqual([]);
      expect(collisions(box), id).toEqual([]);
      expect(strays(box), id).toEqual([]);
      expect(box.innerHTML).not.toMatch(/(?:fill|stroke)="(?:#|rgb|black|white|steelblue)/);
      box.remove();
    }
  });
});

test('a distance is drawn at a right angle to its line, on the screen and not only in numbers', () => {
  const readings = usableReadings(TESTS['a cyclist']!, { toExhaustion: true });
  const sampling = sampleThresholds(readings, { error: HANDHELD, draws: 200, seed: 3 });
  const view = showConstruction(
    { readings, options: {}, sampling, display: displayOf(TESTS['a cyclist']!, readings) },
    'dmax',
  );
  const box = drawn(view!, 900);
  const lines = [...box.querySelectorAll('svg g > line')].map((line) => {
    const [x1, y1, x2, y2] = ['x1', 'y1', 'x2', 'y2'].map((name) => Number(line.getAttribute(name)));
    return { dash: line.getAttribute('stroke-dasharray'), dx: x2! - x1!, dy: y2! - y1! };
  });
  const drop = lines.find((line) => line.dash === '2 2' && line.dy !== 0)!;
  const chord = lines.find((line) => line.dash === null && line.dy !== 0)!;
  expect(Math.abs(drop.dx * chord.dx + drop.dy * chord.dy)).toBeLessThan(
    1e-6 * Math.hypot(chord.dx, chord.dy) ** 2,
  );
  expect(texts(box).map((t) => t.textContent)).toEqual(
    expect.arrayContaining(['line between the ends', 'greatest distance', 'threshold', '95 % interval']),
  );
});

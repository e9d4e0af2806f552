import { expect, test } from 'vitest';
import { HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { Sampler, sampleThresholds } from '../../src/physiology/samplingError.ts';
import { streamedSampling } from '../../src/physiology/streamedSampling.ts';
import reference from '../references/step-tests/monte_carlo.json' with { type: 'json' };
import { TEN_PRE } from './stepTests.ts';

const readings = usableReadings(TEN_PRE);
const given = { error: HANDHELD, seed: 11 };

test('says of each method what a run that keeps its draws says, to a cell of the grid', () => {
  const last = [...streamedSampling(readings, given, { block: 500, slice: 130, most: 2000 })].at(-1)!;
  expect(last.draws).toBe(2000);
  const kept = sampleThresholds(readings, { ...given, draws: 2000 });
  const cell = (350 * (1 + 6 * HANDHELD.intensityScale)) / 8192;
  const streamed = last.methods();
  expect(streamed.length).toBeGreaterThan(10);
  for (const got of streamed) {
    const want = kept.methods.find(({ method }) => method === got.method)!;
    // Beyond the range is an answer for the ends of the interval, and none for the shares.
    expect(got.sd! / want.sd!).toBeCloseTo(1, 9);
    expect(got.mean! / want.mean!).toBeCloseTo(1, 9);
    expect(got.refusedShare).toBeCloseTo(want.refusedShare, 12);
    expect(got.status).toBe(want.status);
    for (const which of ['interval95', 'interval80'] as const) {
      expect(got[which] === null).toBe(want[which] === null);
      for (const end of ['low', 'high'] as const) {
        const [a, b] = [got[which]?.[end], want[which]?.[end]];
        expect(a?.beyond).toBe(b?.beyond);
        if (a?.value != null) expect(Math.abs(a.value - b!.value!), got.method).toBeLessThanOrEqual(cell);
      }
    }
  }
});

test('gives control back after each slice, with progress in draws', () => {
  const told: { draws: number; unknown: boolean }[] = [];
  const adaptive = { block: 300, slice: 100, most: 700 };
  for (const { draws, share, methods } of streamedSampling(readings, given, adaptive)) {
    // At the end of a block control comes back for every method as well.
    if (told.at(-1)?.draws === draws) told.pop();
    told.push({ draws, unknown: methods().every(({ sd }) => sd === null) });
    expect(share >= draws / 700 && share <= 1).toBe(true);
  }
  expect(told.map(({ draws }) => draws)).toEqual([100, 200, 300, 400, 500, 600, 700]);
  // Figures are those of full blocks.
  expect(told.map(({ unknown }) => unknown)).toEqual([true, true, false, false, false, false, false]);
});

test('agrees with a million draws of numpy', () => {
  const cubic4 = { methods: ['fixed-4.0'], options: { curve: 'cubic' } as const, seed: 2 };
  const error = { ...NO_ERROR, repeatability: 0.1 };
  const stream = streamedSampling(readings, { ...cubic4, error }, { block: 10_000, digits: 2 });
  const last = [...stream].at(-1)!;
  const [got] = last.methods();
  const { sd, low, high } = reference['sd0.1'].cubic4;
  expect(last.state).toBe('settled');
  // Four standard errors of a standard deviation, and of a quantile with a normal density there, and a cell.
  expect(Math.abs(got!.sd! - sd)).toBeLessThan((4 * sd) / Math.sqrt(2 * last.draws));
  const bound = (4 * sd * Math.sqrt((0.025 * 0.975) / last.draws)) / 0.0584 + 225 / 8192;
  expect(Math.abs(got!.interval95!.low.value! - low)).toBeLessThan(bound);
  expect(Math.abs(got!.interval95!.high.value! - high)).toBeLessThan(bound);
});

test('what is forgotten is followed by the draws that would have come', () => {
  const [one, other] = [0, 1].map(() => new Sampler(readings, given)) as [Sampler, Sampler];
  one.run(300);
  other.run(200);
  other.forget();
  other.run(100);
  expect(other.answersFrom('fixed-4.0', 0)).toEqual(one.answersFrom('fixed-4.0', 200));
});

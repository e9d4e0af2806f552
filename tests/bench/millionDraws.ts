import { HANDHELD } from '../../src/physiology/errorModel.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { streamedSampling } from '../../src/physiology/streamedSampling.ts';
import { TEN_PRE } from '../physiology/stepTests.ts';

const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(0)} MB`;

/** A million draws of all methods in slices, as the page makes them: time, longest slice, memory at the end. */
export function millionDraws() {
  const readings = usableReadings(TEN_PRE);
  const adaptive = { block: 10_000, slice: 200, digits: 2 as const, most: 1_000_000 };
  // A method whose ends never settle to two digits keeps it going to the last draw.
  const stream = streamedSampling(readings, { error: HANDHELD, seed: 1 }, adaptive);
  const begin = performance.now();
  const slices: number[] = [];
  let [draws, early] = [0, 0];
  for (let start = performance.now(), step = stream.next(); !step.done; step = stream.next()) {
    slices.push(performance.now() - start);
    draws = step.value.draws;
    if (draws === 100_000) early = process.memoryUsage().arrayBuffers;
    start = performance.now();
  }
  const seconds = (performance.now() - begin) / 1000;
  const late = slices.toSorted((a, b) => a - b)[Math.floor(0.99 * slices.length)]!;
  const growth = process.memoryUsage().arrayBuffers - early;
  return [
    {
      what: `${draws.toLocaleString('en')} draws of all methods in slices, Node`,
      figure: `${seconds.toFixed(1)} s`,
      budget: '',
    },
    { what: '99 % of their slices take less than', figure: `${late.toFixed(0)} ms`, budget: '8 ms' },
    {
      what: 'memory for draws gained after the first 100,000',
      figure: megabytes(Math.max(0, growth)),
      budget: 'constant',
    },
  ];
}

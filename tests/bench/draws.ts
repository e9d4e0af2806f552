import { HANDHELD } from '../../src/physiology/errorModel.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { sampleThresholds } from '../../src/physiology/samplingError.ts';
import { stepTest } from '../physiology/stepTests.ts';

/** An invented smooth curve over `stages` intensities, steep at the end as a real one is. */
function readingsOf(stages: number) {
  const intensity = Array.from({ length: stages }, (_, i) => 120 + (240 * i) / (stages - 1));
  return usableReadings(
    stepTest(
      intensity,
      intensity.map((x) => 0.9 + 0.02 * Math.exp((x - 120) / 42)),
    ),
  );
}

const MOVES = 200;

/** Median ms of one control move: 1,000 draws of all methods with their summary, warm. */
function moveCost(what: string, readingsAt: (move: number) => ReturnType<typeof readingsOf>) {
  const taken: number[] = [];
  for (let move = 0; move < MOVES; move++) {
    const readings = readingsAt(move);
    const start = performance.now();
    sampleThresholds(readings, { error: HANDHELD, draws: 1000, seed: move });
    taken.push(performance.now() - start);
  }
  const warm = taken.slice(MOVES / 2).sort((a, b) => a - b);
  return { what, figure: `${warm[warm.length >> 1]!.toFixed(1)} ms`, budget: '12 ms' };
}

/** Cost of a draw at several numbers of stages, and of one control move; one thread of Node. */
export function drawCosts() {
  const test = readingsOf(8);
  const dragged = (move: number) => ({ ...test, y: test.y.map((y) => y + 0.001 * move) });
  return [
    ...[6, 8, 12, 20].map(drawCost),
    moveCost('1,000 draws and summary after a move of the errors, 8 stages, Node', () => test),
    moveCost('1,000 draws and summary after a move of the readings, 8 stages, Node', dragged),
  ];
}

/** Microseconds a draw of all methods, warm. */
function drawCost(stages: number) {
  const readings = readingsOf(stages);
  const run = (draws: number) => sampleThresholds(readings, { error: HANDHELD, draws, seed: 1 });
  for (let i = 0; i < 5; i++) run(1000);
  const draws = 20_000;
  const start = performance.now();
  run(draws);
  const each = ((performance.now() - start) * 1000) / draws;
  return {
    what: `all methods, one draw, ${stages} stages, Node`,
    figure: `${each.toFixed(1)} µs`,
    budget: '',
  };
}

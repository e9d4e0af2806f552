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

/** Microseconds a draw of all methods at several numbers of stages, warm, one thread of Node. */
export function drawCosts() {
  return [6, 8, 12, 20].map((stages) => {
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
  });
}

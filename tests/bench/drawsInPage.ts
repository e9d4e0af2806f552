import { runCells, type Stage, untilStatus, workbookFrame } from '../e2e/helpers.ts';
import type { Measured } from './figures.ts';
import { METHODS, X, Y } from './references.ts';

/** Draws with their summary, timed inside a cell: the first thousand after load, and ten thousand warm. */
const CELL = `
import { HANDHELD, sampleThresholds, usableReadings } from '#hourline';
const [x, y] = ${JSON.stringify([X, Y])};
const stages = x.map((intensity, row) => ({
  row, intensity, lactate: y[row], heartRate: null, rpe: null, minutes: null,
}));
const readings = usableReadings(
  { sport: 'cycling', axis: 'power', stages, restLactate: null, stageMinutes: null, bodyMass: null, notes: [] },
  { toExhaustion: true },
);
const methods = ${JSON.stringify(METHODS)};
const timed = (draws, seed) => {
  const start = performance.now();
  sampleThresholds(readings, { methods, options: { curve: 'cubic' }, error: HANDHELD, draws, seed });
  return performance.now() - start;
};
const first = timed(1000, 1);
const warm = Array.from({ length: 12 }, (_, i) => timed(10000, 2 + i)).slice(4);
export default JSON.stringify({ first, warm: Math.min(...warm) });
`;

export async function drawsInPage(stage: Stage): Promise<Measured[]> {
  const context = await stage.context();
  const page = await context.newPage();
  await runCells(page, stage.served.url, [{ name: 'draws.ts', text: CELL }]);
  await untilStatus(page, 'Up to date');
  const frame = await workbookFrame(page);
  const text = await frame.locator('hour-cell[data-cell="draws.ts"] .prose').textContent();
  await context.close();
  const { first, warm } = JSON.parse(text!) as { first: number; warm: number };
  const ms = (value: number) => `${value.toFixed(0)} ms`;
  return [
    {
      what: '1,000 draws of 16 methods with summary, first after load, Chromium',
      figure: ms(first),
      budget: '25 ms',
    },
    { what: '10,000 draws of 16 methods with summary, warm, Chromium', figure: ms(warm), budget: '20 ms' },
  ];
}

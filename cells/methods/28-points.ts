import { chart, prose } from '#hourline';
import { display, readings } from './25-readings.ts';

const points = Array.from(readings.x, (x, i) => ({
  x,
  y: readings.y[i]!,
}));

export default [
  prose`
    ## First, look
    Before any line is drawn: where would you put the two
    thresholds? Let somebody else look too, without telling
    each other. It is the oldest method, and its error is the
    difference between you.`,
  chart({
    title: 'The bare readings',
    summary: `${points.length} readings and no curve.`,
    draw: ({ Plot, ...page }) =>
      Plot.plot({
        ...page,
        height: 220,
        x: { label: display.unit, nice: true },
        y: { label: 'mmol/L', grid: true, zero: true },
        marks: [Plot.dot(points, { x: 'x', y: 'y', r: 4 })],
      }),
  }),
];

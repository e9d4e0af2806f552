import { pairs } from 'd3-array';
import { chart, prose, tableOf } from '#hourline';
import { display, readings } from './25-readings.ts';

const points = Array.from(readings.x, (x, i) => ({ x, y: readings.y[i]! }));
const rises = pairs(points, (a, b) => ({ from: a.x, to: b.x, rise: b.y - a.y }));

export default [
  prose`
    Before any curve, look at the steps: how much lactate rose from one stage to the next. A handheld meter alone
    makes differences of up to half a mmol/L, so small steps and small falls mean nothing yet.`,
  chart({
    title: 'Rise from stage to stage',
    summary: `Steps that go down: ${rises.filter(({ rise }) => rise < 0).length} of ${rises.length}.`,
    data: tableOf('Rises', rises, { from: 'From', to: 'To', rise: 'Rise, mmol/L' }),
    draw({ Plot, ...page }) {
      const bars = Plot.rectY(rises, { x1: 'from', x2: 'to', y: 'rise', inset: 1, fill: 'var(--muted)' });
      const [x, y] = [{ label: display.unit }, { label: 'Rise, mmol/L', grid: true }];
      return Plot.plot({ ...page, height: 180, x, y, marks: [bars, Plot.ruleY([0])] });
    },
  }),
];

import { chart, tableOf } from '#hourline';
import { display } from './25-readings.ts';
import { falls, rises } from './27-rises.ts';

const step = { x1: 'from', x2: 'to', y: 'rise' } as const;
const keys = { from: 'From', to: 'To', rise: 'Rise, mmol/L' };

export default chart({
  title: 'Rise from stage to stage',
  summary: `Down: ${falls.length} of ${rises.length} steps.`,
  data: tableOf('Rises', rises, keys),
  draw: ({ Plot, ...page }) =>
    Plot.plot({
      ...page,
      height: 180,
      x: { label: display.unit },
      y: { label: keys.rise, grid: true },
      marks: [
        Plot.rectY(rises, {
          ...step,
          inset: 1,
          fill: 'var(--muted)',
        }),
        Plot.ruleY([0]),
      ],
    }),
});

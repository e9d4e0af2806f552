import * as Plot from '@observablehq/plot';
import * as arquero from 'arquero';
import * as d3Array from 'd3-array';
import { afterEach, describe, expect, test } from 'vitest';
import * as hourline from '#hourline';
import { SHIPPED } from '../../src/host/shipped.ts';
import { type ChartView, isView } from '../../src/view/view.ts';
import { createEngine } from '../../src/workbook/engine.ts';
import { readCell } from '../../src/workbook/readCell.ts';
import { collisions, drawn, strays, unfit } from './drawing.ts';

const libraries = {
  '#hourline': () => hourline,
  '@observablehq/plot': () => Plot,
  arquero: () => arquero,
  'd3-array': () => d3Array,
};

function chartsIn(shown: unknown): ChartView[] {
  if (Array.isArray(shown)) return shown.flatMap(chartsIn);
  if (!isView(shown)) return [];
  if (shown.view === 'stack') return chartsIn(shown.items);
  // A job that begins by itself is made to its end: its last pictures are those that stay.
  if (shown.view === 'job' && shown.begin === 'at-rest') {
    return [...chartsIn(shown.before), ...chartsIn([...shown.steps()].at(-1)?.shown())];
  }
  return shown.view === 'chart' ? [shown] : [];
}

afterEach(() => {
  document.body.replaceChildren();
});

/**
 * How many charts each workbook draws. Athletes: rises, curve, models, thresholds, sensitivity, one reading higher, one left
 * out, shares of errors, shares with choices, one sample more, bands, heart rate,
 * session, hour, zones, retest, demand.
 */
const COUNTS: Record<string, number> = {
  cyclist: 17,
  own: 0,
  runner: 17,
  methods: 18,
  'lactate-minimum': 1,
  reverse: 1,
  bouts: 1,
};

describe.each(SHIPPED)('$title', ({ name, cells }) => {
  test.each([340, 900])(
    'every chart of the workbook at %i px has its labels apart and inside',
    async (width) => {
      const engine = createEngine({ read: readCell, libraries, onState: () => {} });
      engine.load(await cells());
      await engine.run();
      const charts = engine.states().flatMap((state) => chartsIn(state.shown));
      expect(charts).toHaveLength(COUNTS[name]!);
      for (const chart of charts) {
        const box = drawn(chart, width);
        expect(unfit(box), chart.title).toEqual([]);
        expect(collisions(box), chart.title).toEqual([]);
        expect(strays(box), chart.title).toEqual([]);
        box.remove();
      }
    },
  );
});

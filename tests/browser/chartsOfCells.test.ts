import { afterEach, describe, expect, test } from 'vitest';
import { SHIPPED } from '../../src/host/shipped.ts';
import { PAGE_WIDTH } from '../../src/page/results/snapshot.ts';
import { collisions, drawn, strays, unfit } from './drawing.ts';
import { chartsOf } from './support/charts.ts';

afterEach(() => {
  document.body.replaceChildren();
});

/**
 * How many charts each workbook draws. Athletes: rises, curve, models, thresholds, one method’s construction, sensitivity, one reading higher, one left
 * out, shares of errors, shares with choices, one sample more, bands, heart rate,
 * session, hour, zones, retest, demand.
 */
const COUNTS: Record<string, number> = {
  cyclist: 18,
  own: 0,
  runner: 18,
  methods: 18,
  'lactate-minimum': 1,
  reverse: 1,
  bouts: 1,
  lesson: 10,
};

describe.each(SHIPPED)('$title', ({ name, cells }) => {
  test.each([340, PAGE_WIDTH, 680, 900])(
    'every chart of the workbook at %i px has its labels apart and inside',
    async (width) => {
      const charts = await chartsOf(await cells());
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

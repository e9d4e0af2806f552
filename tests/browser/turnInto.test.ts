import { afterEach, expect, test } from 'vitest';
import { modelsChart } from '../../src/charts/modelsChart.ts';
import { sensitivityChart } from '../../src/charts/sensitivityChart.ts';
import { thresholdsChart } from '../../src/charts/thresholdsChart.ts';
import { turnInto } from '../../src/page/results/turnInto.ts';
import type { ChartView } from '../../src/view/view.ts';
import { modelsSample, sensitivitySample, thresholdsSample } from '../charts/samples.ts';
import { drawn } from './drawing.ts';

afterEach(() => document.body.replaceChildren());

const pictureOf = (view: ChartView, width: number) => drawn(view, width).querySelector('svg')!;

const fewer: ChartView = sensitivityChart({ ...sensitivitySample, rows: sensitivitySample.rows.slice(2) });
const PICTURES: [string, ChartView, number][] = [
  ['all methods', sensitivityChart(sensitivitySample), 900],
  ['fewer methods', fewer, 900],
  ['fewer methods, narrow', fewer, 340],
  ['thresholds', thresholdsChart(thresholdsSample), 900],
  ['models', modelsChart(modelsSample), 600],
];

test.each(PICTURES)('any picture turned into %s is the picture drawn anew', (_name, view, width) => {
  for (const [earlier, earlierView, earlierWidth] of PICTURES) {
    const picture = pictureOf(earlierView, earlierWidth);
    turnInto(picture, pictureOf(view, width));
    expect(picture.isConnected, earlier).toBe(true);
    expect(picture.isEqualNode(pictureOf(view, width)), earlier).toBe(true);
  }
});

test('what stays alike is not touched', () => {
  const picture = pictureOf(fewer, 900);
  const watcher = new MutationObserver(() => {});
  watcher.observe(picture, { attributes: true, characterData: true, childList: true, subtree: true });
  turnInto(picture, pictureOf(fewer, 900));
  expect(watcher.takeRecords()).toEqual([]);
  const [first, ...others] = sensitivitySample.rows.slice(2);
  const moved = sensitivityChart({
    ...sensitivitySample,
    rows: [{ ...first!, value: first!.value.replace(/\d/g, '9') }, ...others],
  });
  turnInto(picture, pictureOf(moved, 900));
  const texts = watcher.takeRecords().map(({ target }) => target.textContent);
  watcher.disconnect();
  expect(texts).toHaveLength(1);
  expect(texts[0]).toContain('99');
});

import { afterEach, describe, expect, test } from 'vitest';
import { bandsChart } from '../../src/charts/bandsChart.ts';
import { curveChart } from '../../src/charts/curveChart.ts';
import { heartRateChart } from '../../src/charts/heartRateChart.ts';
import { modelsChart } from '../../src/charts/modelsChart.ts';
import { sensitivityChart } from '../../src/charts/sensitivityChart.ts';
import { sessionChart } from '../../src/charts/sessionChart.ts';
import { thresholdsChart } from '../../src/charts/thresholdsChart.ts';
import type { ChartView } from '../../src/view/view.ts';
import {
  bandsSample,
  curveSample,
  heartRateSample,
  modelsSample,
  sensitivitySample,
  sessionSample,
  thresholdsSample,
} from '../charts/samples.ts';
import { collisions, drawn, strays, texts, unfit } from './drawing.ts';

const CHARTS: Record<string, ChartView> = {
  curve: curveChart(curveSample),
  thresholds: thresholdsChart(thresholdsSample),
  sensitivity: sensitivityChart(sensitivitySample),
  models: modelsChart(modelsSample),
  bands: bandsChart(bandsSample),
  'heart rate': heartRateChart(heartRateSample),
  session: sessionChart(sessionSample),
};
const WIDTHS = [340, 900];

afterEach(() => {
  document.body.replaceChildren();
});

describe.each(Object.entries(CHARTS))('the %s chart', (_name, view) => {
  test.each(WIDTHS)('at %i px: labels apart, inside the picture, every number a number', (width) => {
    const box = drawn(view, width);
    expect(unfit(box)).toEqual([]);
    expect(collisions(box)).toEqual([]);
    expect(strays(box)).toEqual([]);
  });

  test('has a name and a summary for those who do not see it', () => {
    const svg = drawn(view, 900).querySelector('svg')!;
    expect(svg.getAttribute('role')).toBe('img');
    expect(svg.getAttribute('aria-label')).toBe(`${view.title}. ${view.summary}`);
  });

  test('takes its colours from the page', () => {
    const html = drawn(view, 900).innerHTML;
    expect(html).toContain('var(--');
    expect(html).not.toMatch(/(?:fill|stroke)="(?:#|rgb|black|white|steelblue)/);
  });
});

describe('methods on the curve', () => {
  const symbols = (box: Element, colour: string) =>
    new Set([...box.querySelectorAll(`path[fill="var(--${colour})"]`)].map((p) => p.getAttribute('d')));

  test('the two thresholds differ in shape, not in colour alone', () => {
    const box = drawn(CHARTS.thresholds!, 900);
    const [first, second] = [symbols(box, 'first'), symbols(box, 'second')];
    expect(first.size).toBeGreaterThan(0);
    expect([...first].filter((shape) => second.has(shape))).toEqual([]);
  });

  test('a limit beyond the tested range is an arrowhead at the edge', () => {
    const box = drawn(CHARTS.thresholds!, 900);
    expect(texts(box).filter((t) => t.textContent === '▸')).toHaveLength(1);
  });
});

test('a method that answers in stages shows its share of draws at each', () => {
  const box = drawn(CHARTS.sensitivity!, 900);
  const shares = texts(box).map((t) => t.textContent);
  expect(shares).toEqual(expect.arrayContaining(['12 %', '61 %', '27 %']));
});

test('undecided ranges are hatched within the strip of bands', () => {
  const box = drawn(CHARTS.bands!, 340);
  const hatches = [...box.querySelectorAll('.hatch path')];
  expect(hatches).toHaveLength(bandsSample.bands.filter((band) => band.undecided).length);
  for (const hatch of hatches) expect(hatch.getBoundingClientRect().width).toBeGreaterThan(5);
});

describe('a session', () => {
  test('readings above, under and too early differ in shape, and the key names each', () => {
    const box = drawn(CHARTS.session!, 900);
    const said = texts(box).map((t) => t.textContent);
    expect(said).toEqual(
      expect.arrayContaining([
        'reps right at the threshold',
        'reading called above',
        'called at or under',
        'too early to tell',
      ]),
    );
    const dots = [...box.querySelectorAll('[aria-label="dot"] > *')];
    expect(new Set(dots.map((dot) => dot.getAttribute('d') ?? dot.tagName)).size).toBe(3);
  });

  test('names of reps that have no room become numbers', () => {
    const names = (width: number) => texts(drawn(CHARTS.session!, width)).map((t) => t.textContent);
    expect(names(900)).toContain('295 W');
    expect(names(260)).not.toContain('295 W');
  });
});

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type SensitivityRow, sensitivityChart } from '../../src/charts/sensitivityChart.ts';
import { Hand } from '../../src/page/hand.ts';
import { prose } from '../../src/view/view.ts';
import { sensitivitySample } from '../charts/samples.ts';
import { drawn } from './drawing.ts';
import { openPage } from './support/openPage.ts';
import { soon } from './support/soon.ts';

afterEach(() => document.body.replaceChildren());

const WIDTH = 900;
const chartOf = (rows: readonly SensitivityRow[]) =>
  sensitivityChart({ ...sensitivitySample, rows, summary: rows.map((row) => row.value).join() });
const pictureOf = (rows: readonly SensitivityRow[], width = WIDTH) =>
  drawn(chartOf(rows), width).querySelector('svg')!;
const frameOf = (rows: readonly SensitivityRow[], width = WIDTH) => chartOf(rows).moving!.frame({ width });

const { rows } = sensitivitySample;
const among = (change: (row: SensitivityRow, i: number) => Partial<SensitivityRow>) =>
  rows.map((row, i) => ({ ...row, ...change(row, i) }));

/** What a hand at the controls brings about, with the names and the number of the rows as they are. */
const MOVES: [string, readonly SensitivityRow[]][] = [
  ['as it was', rows],
  [
    'other answers and intervals',
    among(({ intensity }) => ({
      intensity: intensity + 3,
      value: `${intensity + 3} W`,
      interval: [intensity - 1, intensity + 9],
    })),
  ],
  ['intervals that end beyond the range', among(() => ({ interval: [0, Number.POSITIVE_INFINITY] }))],
  ['none determined', among(() => ({ interval: null, density: null, quiet: true, range: 'nothing' }))],
  ['bars for all', among(() => ({ stages: [{ x: 180, share: 1 }] }))],
  ['other bars', among(({ stages }) => ({ stages: stages && [{ x: 240, share: 0.05 }] }))],
];

describe.each(MOVES)('a picture moved to one with %s', (_name, to) => {
  test.each(MOVES)('from one with %s is the one drawn anew', (_earlier, from) => {
    expect(frameOf(from)).toBe(frameOf(to));
    const picture = pictureOf(from);
    chartOf(to).moving!.move(picture, { width: WIDTH });
    expect(picture.isEqualNode(pictureOf(to))).toBe(true);
  });
});

test.each([900, 340])('estimates stand where the axis says, at %i px', (width) => {
  const picture = pictureOf(
    among(() => ({ intensity: 200, interval: [200, 300], density: null, stages: null })),
    width,
  );
  const tick = (text: string) => {
    const label = [...picture.querySelectorAll('text')].find((one) => one.textContent === text)!;
    const { left, right } = label.getBoundingClientRect();
    return (left + right) / 2;
  };
  const dots = [...picture.querySelectorAll('polygon')].map((dot) => dot.getBoundingClientRect());
  expect(dots).toHaveLength(rows.length);
  for (const { left, right } of dots) expect(Math.abs((left + right) / 2 - tick('200'))).toBeLessThan(1);
  const bars = [...picture.querySelectorAll('line[stroke-linecap]')];
  expect(bars).toHaveLength(rows.length);
  for (const bar of bars) {
    expect(Math.abs(bar.getBoundingClientRect().right - tick('300'))).toBeLessThan(1);
  }
});

test('another number of rows, other room for their values, another width are another frame', () => {
  const frames = [
    frameOf(rows),
    frameOf(rows.slice(1)),
    frameOf(rows.with(0, { ...rows[0]!, claim: 'LT2' })),
    frameOf(rows.with(0, { ...rows[0]!, range: 'a range that takes much more room' })),
    frameOf(rows, 340),
  ];
  expect(new Set(frames).size).toBe(frames.length);
});

describe('while a hand moves', () => {
  let rest = Promise.withResolvers<void>();
  beforeEach(() => {
    rest = Promise.withResolvers<void>();
  });
  afterEach(() => vi.restoreAllMocks());

  const moves = () => vi.spyOn(Hand.prototype, 'rests').mockReturnValue(rest.promise);
  function handRests(): void {
    vi.restoreAllMocks();
    rest.resolve();
  }

  test('the picture follows at once, its words and its numbers when the hand rests', async () => {
    const to = (intensity: number) =>
      chartOf(
        among((_row, i) =>
          i === 1 ? { value: `${intensity} W`, interval: [intensity, intensity + 1] } : {},
        ),
      );
    const { engine, find } = await openPage([{ name: 'a.ts', text: '236' }], (text) => ({
      shown: {
        ...to(Number(text)),
        data: {
          view: 'table',
          caption: 'Numbers',
          columns: [{ key: 'a', heading: 'A' }],
          rows: [{ a: text }],
        },
      },
    }));
    const picture = await soon(() => find<HTMLElement>('a.ts', 'figure svg[role=img]'));
    const words = () => find('a.ts', 'figure .summary').textContent!.replaceAll('\u202f', ' ');
    moves();
    for (const text of ['241', '242']) {
      await engine.edit('a.ts', text);
      await soon(() => expect(picture.textContent).toContain(`${text} W`));
      expect(picture.getAttribute('aria-label')).toContain(`${text} W`);
    }
    expect(words()).toContain('236 W');
    expect(find('a.ts', 'table').textContent).toContain('236');
    handRests();
    await soon(() => expect(words()).toContain('242 W'));
    expect(find('a.ts', 'table').textContent).toContain('242');
    expect(picture.isConnected).toBe(true);
  });

  test('a cell follows at once, what the page says of its cells when the hand rests', async () => {
    const { engine, page, find } = await openPage([{ name: 'a.ts', text: 'One' }], (text) => ({
      shown: prose`
        ## ${text}
        ### ${text} more`,
    }));
    const contents = () => page.querySelector('.contents')?.textContent ?? '';
    await engine.add('b.ts', 'Beside', 1);
    await soon(() => expect(contents()).toContain('One'));
    moves();
    await engine.edit('a.ts', 'Two');
    await soon(() => expect(find('a.ts', 'h2, h3').textContent).toBe('Two'));
    expect(contents()).toContain('One');
    handRests();
    await soon(() => expect(contents()).toContain('Two'));
  });
});

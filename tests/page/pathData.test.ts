import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pathData, rectangleSteps, stepsOf, withoutNeedless } from '../../src/page/results/pathData.ts';

/**
 * Where relative path data leads, by the rules of SVG 2, 9.3 (w3.org/TR/SVG2/paths.html): a reader of its own, for the letters
 * that we write for straight lines.
 */
function pointsOf(d: string): [number, number][] {
  const points: [number, number][] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const [, letter, list] of d.matchAll(/([mlhvz])([^mlhvz]*)/g)) {
    const numbers = (list!.match(/-?(?:\d+\.?\d*|\.\d+)/g) ?? []).map(Number);
    if (letter === 'z') [x, y] = [startX, startY];
    const size = letter === 'm' || letter === 'l' ? 2 : 1;
    for (let i = 0; i < numbers.length; i += size) {
      if (letter !== 'v') x += numbers[i]!;
      if (letter === 'v') y += numbers[i]!;
      if (size === 2) y += numbers[i + 1]!;
      points.push([x, y]);
    }
    if (letter === 'm') [startX, startY] = points.at(-numbers.length / 2)!;
  }
  return points;
}

const lighter = (d: string) => pathData(withoutNeedless(stepsOf(d)!));

describe('path data', () => {
  test.each([
    ['M0,90L680,90', 'm0 90h680'],
    ['M0,0L0.04,10', 'm0 0v10'],
    ['M1.06,2L3.05,2.5L1.55,2.25Z', 'm1.1 2 2 .5-1.5-.2z'],
    ['M5,0A5,5,0,1,1,-5,0A5,5,0,1,1,5,0', 'm5 0a5 5 0 1 1-10 0 5 5 0 1 1 10 0'],
    ['M0,0C1,2,3,4,5,6L7,8', 'm0 0c1 2 3 4 5 6l2 2'],
    // Two moves never share a letter: the second pair would be a line.
    ['M0,0L5,5M10,0L15,5', 'm0 0 5 5m5-5 5 5'],
    ['M0,0L4,0L4,4ZM6,6L9,9', 'm0 0h4v4zm6 6 3 3'],
  ])('%s becomes %s', (long, short) => {
    expect(lighter(long)).toBe(short);
  });

  test.each([
    '',
    'm1 2l3 4',
    'M1,2H5',
    'M1,2L3',
    'M1-2L3,4',
    'L1,2',
    '5M1,2',
    'M1,2Z3',
    'M1,2Lx,y',
    'MNaN,1',
  ])('“%s” is left alone', (d) => {
    expect(stepsOf(d)).toBeNull();
  });

  test('is moved, but for radii and flags of arcs', () => {
    expect(pathData(stepsOf('M5,0A5,6,0,1,0,-5,0L0,0', 100, 10)!)).toBe('m105 10a5 6 0 1 0-10 0h5');
  });

  test('a rectangle is its four corners', () => {
    expect(pathData(rectangleSteps(1, 2, 30.04, 4))).toBe('m1 2h30v4h-30z');
  });

  test('no point is further than a tenth of a pixel and half of one from where it was', () => {
    const coordinate = fc.double({ min: -500, max: 1500, noNaN: true });
    const lines = fc.array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 60 });
    fc.assert(
      fc.property(lines, (points) => {
        const d = `M${points.map(([x, y]) => `${x.toFixed(3)},${y.toFixed(3)}`).join('L')}`;
        const drawn = pointsOf(lighter(d));
        for (const [x, y] of points) expect(distance(x, y, drawn)).toBeLessThan(0.15);
        // Ends are kept: half a tenth for rounding, and the sum of steps in floating point.
        expect(drawn.at(-1)![0]).toBeCloseTo(points.at(-1)![0], 0);
      }),
      { seed: 7 },
    );
  });

  test('a smooth curve keeps its shape with few points', () => {
    const wave = Array.from({ length: 500 }, (_, i) => [i / 2, 20 * Math.sin(i / 40)] as const);
    const drawn = pointsOf(lighter(`M${wave.map(([x, y]) => `${x},${y.toFixed(4)}`).join('L')}`));
    expect(drawn.length).toBeLessThan(500 / 5);
    for (const [x, y] of wave) expect(distance(x, y, drawn)).toBeLessThan(0.15);
  });
});

/** How far a point is from a line of points. */
function distance(x: number, y: number, line: readonly [number, number][]): number {
  const distances = line.slice(1).map(([bx, by], i) => {
    const [ax, ay] = line[i]!;
    const length = (bx - ax) ** 2 + (by - ay) ** 2;
    const share = length === 0 ? 0 : ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length;
    const at = Math.min(1, Math.max(0, share));
    return Math.hypot(x - ax - at * (bx - ax), y - ay - at * (by - ay));
  });
  return Math.min(...distances);
}

/**
 * Path data in few letters: tenths of a pixel, steps relative to the point before, and no points on a straight line.
 * A tenth of a CSS pixel is finer than any screen or printer shows in a picture of our size.
 */
const TENTHS = 10;
/** A point this near to the line between its neighbours is left out. In tenths of a pixel. (Our rule.) */
const NEAR = 0.5;

/** Absolute, in tenths of a pixel, not yet rounded; the last two numbers are where the step ends. */
export interface Step {
  command: 'M' | 'L' | 'C' | 'Q' | 'A' | 'Z';
  numbers: number[];
}

const COUNTS: Record<string, number> = { M: 2, L: 2, C: 6, Q: 4, A: 7, Z: 0 };
/** Radii of an arc are lengths; its rotation and its flags are no places at all. */
const ARC_RADII = 2;
const ARC_PLACE = 5;

const inTenths = (value: number): number => value * TENTHS;

/**
 * The steps of path data as charts write it, moved by (right, down). Null for anything else: relative steps, H, V, S, T, or
 * what is no path data.
 */
export function stepsOf(d: string, right = 0, down = 0): Step[] | null {
  if (!/^\s*M/.test(d)) return null;
  const steps: Step[] = [];
  for (const [, letter, list] of d.matchAll(/\s*(\D)([^MLCQAZ]*)/g)) {
    const count = COUNTS[letter!];
    const numbers = list!.match(/[^\s,]+/g)?.map(Number) ?? [];
    const fits = count === 0 ? numbers.length === 0 : numbers.length > 0 && numbers.length % count! === 0;
    if (!fits || !numbers.every(Number.isFinite)) return null;
    if (letter === 'Z') steps.push({ command: 'Z', numbers });
    for (let i = 0; i < numbers.length; i += count!) {
      // More pairs after a move are lines.
      const command = (letter === 'M' && i > 0 ? 'L' : letter) as Step['command'];
      steps.push({ command, numbers: placed(command, numbers.slice(i, i + count!), right, down) });
    }
  }
  return steps;
}

function placed(command: string, numbers: number[], right: number, down: number): number[] {
  if (command !== 'A') return numbers.map((n, i) => inTenths(n + (i % 2 === 0 ? right : down)));
  return numbers.map((n, i) => {
    if (i < ARC_RADII) return inTenths(n);
    if (i < ARC_PLACE) return n;
    return inTenths(n + (i === ARC_PLACE ? right : down));
  });
}

/** A rectangle as a path. */
export function rectangleSteps(x: number, y: number, width: number, height: number): Step[] {
  const [left, top, right, bottom] = [inTenths(x), inTenths(y), inTenths(x + width), inTenths(y + height)];
  return [
    { command: 'M', numbers: [left, top] },
    { command: 'L', numbers: [right, top] },
    { command: 'L', numbers: [right, bottom] },
    { command: 'L', numbers: [left, bottom] },
    { command: 'Z', numbers: [] },
  ];
}

/** The same steps without the points that lie on the way between others. */
export function withoutNeedless(steps: readonly Step[]): Step[] {
  const kept: Step[] = [];
  let from = 0;
  while (from < steps.length) {
    let to = from + 1;
    if (steps[from]!.command === 'M' || steps[from]!.command === 'L') while (steps[to]?.command === 'L') to++;
    kept.push(...thinned(steps.slice(from, to)));
    from = to;
  }
  return kept;
}

/**
 * A line of points without those nearer than NEAR to what is left.
 *
 * Source    Douglas & Peucker 1973, Cartographica 10:112–122 (from memory)
 */
function thinned(points: readonly Step[]): Step[] {
  const last = points.length - 1;
  if (last < 2) return [...points];
  let farthest = 0;
  let distance = NEAR;
  for (let i = 1; i < last; i++) {
    const d = distanceToSegment(points[i]!.numbers, points[0]!.numbers, points[last]!.numbers);
    if (d > distance) [farthest, distance] = [i, d];
  }
  if (farthest === 0) return [points[0]!, points[last]!];
  return [...thinned(points.slice(0, farthest + 1)).slice(0, -1), ...thinned(points.slice(farthest))];
}

function distanceToSegment([px, py]: number[], [ax, ay]: number[], [bx, by]: number[]): number {
  const [dx, dy] = [bx! - ax!, by! - ay!];
  const along = dx * dx + dy * dy;
  const share = along === 0 ? 0 : ((px! - ax!) * dx + (py! - ay!) * dy) / along;
  const at = Math.min(1, Math.max(0, share));
  return Math.hypot(px! - ax! - at * dx, py! - ay! - at * dy);
}

/** “1.5-.5.2” are three numbers: a sign or a second point begins a new one. */
const NEEDLESS_SPACE = / (?=-)|(?<=\.\d) (?=\.)/g;

/** Steps as path data, each relative to where the one before ended. */
export function pathData(steps: readonly Step[]): string {
  let [x, y, startX, startY] = [0, 0, 0, 0];
  let before = '';
  const parts: string[] = [];
  for (const { command, numbers: exact } of steps) {
    // Rounded where it is, not how far it is, or the errors would add up.
    const step = { command, numbers: exact.map(Math.round) };
    const { letter, numbers } = relative(step, x, y);
    // After m, pairs are l: only that letter and the ones just written may go unwritten.
    const said = letter === before && letter !== 'm';
    parts.push((said || (letter === 'l' && before === 'm') ? ' ' : letter) + row(numbers));
    before = letter;
    if (letter !== 'z') [x, y] = step.numbers.slice(-2) as [number, number];
    else [x, y] = [startX, startY];
    if (letter === 'm') [startX, startY] = [x, y];
  }
  return parts.join('').replace(NEEDLESS_SPACE, '');
}

/** A step from (x, y), in pixels; level and upright lines have letters of their own. */
function relative({ command, numbers }: Step, x: number, y: number): { letter: string; numbers: number[] } {
  const letter = command.toLowerCase();
  const by = (n: number, i: number) => (n - (i % 2 === 0 ? x : y)) / TENTHS;
  if (command === 'A') {
    const [radiusX, radiusY, ...turn] = numbers.slice(0, ARC_PLACE) as [number, number, ...number[]];
    const end = numbers.slice(ARC_PLACE).map(by);
    return { letter, numbers: [radiusX / TENTHS, radiusY / TENTHS, ...turn, ...end] };
  }
  const moved = numbers.map(by);
  if (command !== 'L') return { letter, numbers: moved };
  if (moved[1] === 0) return { letter: 'h', numbers: [moved[0]!] };
  if (moved[0] === 0) return { letter: 'v', numbers: [moved[1]!] };
  return { letter, numbers: moved };
}

/** Numbers without the noughts before their points. */
const row = (numbers: readonly number[]): string =>
  numbers.map((number) => String(number).replace(/^(-?)0\./, '$1.')).join(' ');

/** The course of a recording for a picture of `height`, as wide as the recording has seconds. */
export interface Course {
  /** Data of a path that is interrupted where nothing was recorded. */
  path: string;
  /** The highest value that is drawn; what is higher goes to its height. */
  most: number;
  isInterrupted: boolean;
}

/** A spike goes to the upper edge and leaves the steps their height. */
function highest(outline: readonly number[]): number {
  const known = outline.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b);
  return Math.max(1, Math.min(known.at(-1) ?? 1, 1.5 * (known[Math.floor(0.95 * known.length)] ?? 1)));
}

/**
 * Draws each part of an outline at its height: a part that stands alone between two that were not recorded is seen, and a
 * gap is not taken for zeros.
 */
export function courseOf(outline: readonly number[], length: number, height: number): Course {
  const most = highest(outline);
  const x = (part: number) => Number(((part * length) / outline.length).toFixed(2));
  let path = '';
  outline.forEach((value, part) => {
    if (Number.isNaN(value)) return;
    const y = (height - (0.9 * height * Math.min(most, value)) / most).toFixed(1);
    const before = outline[part - 1] ?? NaN;
    path += `${Number.isNaN(before) ? `M${x(part)},${y}` : `V${y}`}H${x(part + 1)}`;
  });
  return { path, most, isInterrupted: outline.some((value) => Number.isNaN(value)) };
}

import type { WorkbookDocument } from '../../workbook/document.ts';

/** Workbook, moment of the change in ms since 1970, and length of the text. */
export type VersionKey = [id: string, at: number, length: number];

/** The key of what a workbook was. */
export const versionKey = ({ id, changed, cells, settings }: WorkbookDocument): VersionKey => [
  id,
  Date.parse(changed) || 0,
  JSON.stringify([cells, settings]).length,
];

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/**
 * Of versions up to an age, the newest in each stretch of time stays. (Our rule. Each stretch is a multiple of the
 * one before, so that a version which stays is not lost to one that was thinned out earlier.)
 */
const STRETCHES = [
  { age: 2 * MINUTE, stretch: 5 * SECOND },
  { age: 10 * MINUTE, stretch: 30 * SECOND },
  { age: 2 * HOUR, stretch: 10 * MINUTE },
  { age: DAY, stretch: HOUR },
  { age: 60 * DAY, stretch: DAY },
  { age: Number.POSITIVE_INFINITY, stretch: 30 * DAY },
];

/** Characters kept for one workbook beside its present state; a workbook as shipped has some 40,000. (Our rule.) */
const MOST = 4_000_000;
/** However long they are, so many of the newest stay. */
const FEWEST = 3;
/** Of versions from a file, which no thinning has bounded, at most so many stay: thinning leaves some hundred. (Our rule.) */
const MOST_FROM_A_FILE = 1000;

/** Which versions of one workbook to let go at the moment `now`. */
export function versionsToForget(keys: readonly VersionKey[], now: number): VersionKey[] {
  const newestFirst = keys.toSorted((a, b) => b[1] - a[1]);
  const taken = new Set<string>();
  const forgotten: VersionKey[] = [];
  let length = 0;
  for (const key of newestFirst) {
    const place = stretchOf(key[1], now);
    const fits = taken.size < FEWEST || length + key[2] <= MOST;
    if (taken.has(place) || !fits) {
      forgotten.push(key);
    } else {
      taken.add(place);
      length += key[2];
    }
  }
  return forgotten;
}

/**
 * Of one workbook's versions in a file, the newest that fit into what is kept for a workbook. They are not thinned by age:
 * the browser that saved the file has done so, and a file opened much later brings back what it holds.
 */
export function versionsThatFit(versions: readonly WorkbookDocument[]): WorkbookDocument[] {
  const keyed = versions.map((version) => ({ version, key: versionKey(version) }));
  let length = 0;
  return keyed
    .sort((a, b) => b.key[1] - a.key[1])
    .filter(({ key }, i) => {
      length += key[2];
      return i < FEWEST || (i < MOST_FROM_A_FILE && length <= MOST);
    })
    .map(({ version }) => version);
}

function stretchOf(at: number, now: number): string {
  const { stretch } = STRETCHES.find(({ age }) => now - at <= age)!;
  return `${stretch}:${Math.floor(at / stretch)}`;
}

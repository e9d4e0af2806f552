import type { StoredWorkbook } from '../database.ts';
import { athleteOf } from './athleteOf.ts';

/** Workbooks of one athlete. */
export interface AthleteGroup {
  /** '' for those that name none. */
  athlete: string;
  workbooks: StoredWorkbook[];
}

/** C-10 comes after C-9. */
const byCode = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

/**
 * The workbooks that hold every word of `search` in title or athlete's code, by athlete, those without one last; in each group
 * in the order given.
 */
export function groupByAthlete(workbooks: readonly StoredWorkbook[], search = ''): AthleteGroup[] {
  const words = search.toLowerCase().split(/\s+/);
  const groups = new Map<string, StoredWorkbook[]>();
  for (const workbook of workbooks) {
    const athlete = athleteOf(workbook.document);
    const text = `${workbook.document.title} ${athlete}`.toLowerCase();
    if (!words.every((word) => text.includes(word))) continue;
    groups.set(athlete, [...(groups.get(athlete) ?? []), workbook]);
  }
  return [...groups]
    .map(([athlete, found]) => ({ athlete, workbooks: found }))
    .sort(
      (a, b) => Number(a.athlete === '') - Number(b.athlete === '') || byCode.compare(a.athlete, b.athlete),
    );
}

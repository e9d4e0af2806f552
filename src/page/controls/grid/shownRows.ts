/** Rows of a table from one to before another. */
export interface Shown {
  from: number;
  until: number;
}

/** A table of more entries is drawn in parts: the page would not answer while it draws them all. */
const MOST_ENTRIES = 4000;
const LEAST_ROWS = 20;

/** The rows that are drawn: all, or a part around the active one that stays where it is while that moves within its middle. */
export function shownRows(rows: number, columns: number, active: number): Shown {
  const most = Math.max(LEAST_ROWS, Math.floor(MOST_ENTRIES / columns / 4) * 4);
  if (rows <= most) return { from: 0, until: rows };
  const step = most / 2;
  const from = Math.floor(Math.max(0, active) / step) * step - step / 2;
  const first = Math.max(0, Math.min(rows - most, from));
  return { from: first, until: first + most };
}

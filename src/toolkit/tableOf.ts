import { formatNumber } from '../base/format.ts';
import { type TableView, table } from '../view/view.ts';

/** Most decimals a bare number is shown with. */
const DECIMALS = 2;

const text = (value: unknown, decimals: number): string => {
  if (value === null || value === undefined) return '–';
  if (typeof value !== 'number') return String(value);
  if (!Number.isFinite(value)) return '–';
  return formatNumber(value, Number.isInteger(value) ? 0 : decimals);
};

/**
 * A table of plain rows, such as a table library gives; one column for each heading, in that order. Text is shown
 * as it is, numbers that are not whole with these decimals.
 *
 * @example
 * tableOf('Stages', [{ x: 1.234 }], { x: 'Value' }).rows[0].x // '1.23'
 */
export function tableOf(
  caption: string,
  rows: readonly object[],
  headings: Readonly<Record<string, string>>,
  { decimals = DECIMALS }: { decimals?: number } = {},
): TableView {
  const keys = Object.keys(headings);
  const isNumber = (key: string) =>
    rows.some((row) => typeof (row as Record<string, unknown>)[key] === 'number');
  return table({
    caption,
    columns: keys.map((key) => ({ key, heading: headings[key]!, align: isNumber(key) ? 'right' : 'left' })),
    rows: rows.map((row) =>
      Object.fromEntries(keys.map((key) => [key, text((row as Record<string, unknown>)[key], decimals)])),
    ),
  });
}

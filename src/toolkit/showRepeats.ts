import { formatChange, formatNumber, withUnit } from '../base/format.ts';
import type { Pairs } from '../data-in/pairs.ts';
import { demingLine } from '../numerics/deming.ts';
import { repeatsOf } from '../numerics/repeats.ts';
import { type NoticeView, notice, type TableView, table } from '../view/view.ts';

const waits = (needed: number): NoticeView =>
  notice('note', 'Not enough pairs', `It needs at least ${needed} rows with both values.`);

const columns = [
  { key: 'what', heading: 'Quantity' },
  { key: 'value', heading: 'Value', align: 'right' as const },
];

/** How well tests repeat, from tests done twice within days: typical error and the least change beyond chance. */
export function showOwnRepeats(pairs: Pairs | null, unit: string): TableView | NoticeView {
  if (pairs === null || pairs.first.length < 2) return waits(5);
  const {
    typicalError,
    variation,
    smallestChange,
    bias,
    pairs: count,
  } = repeatsOf(pairs.first, pairs.second);
  return table({
    caption: 'How your tests repeat',
    columns,
    rows: [
      { what: 'Typical error of one test', value: withUnit(formatNumber(typicalError, 1), unit) },
      { what: 'The same as a share', value: withUnit(formatNumber(100 * variation, 1), '%') },
      { what: 'Least change beyond chance', value: withUnit(formatNumber(smallestChange, 1), unit) },
      { what: 'Second less first', value: withUnit(formatChange(bias, 1), unit) },
    ],
    note: `${count} pairs${count < 5 ? ': too few, so the published figure stays in use' : ', used in place of the published figure'}. Hopkins 2000, Sports Med 30:1–15 (from memory).`,
  });
}

/** What two meters make of the same samples: bias, limits of agreement, and the line between them. */
export function showTwoMeters(pairs: Pairs | null): TableView | NoticeView {
  if (pairs === null || pairs.first.length < 3) return waits(3);
  const { bias, limits, biasError } = repeatsOf(pairs.first, pairs.second);
  const line = demingLine(pairs.first, pairs.second);
  const lactate = (value: number) => withUnit(formatChange(value, 2), 'mmol/L');
  return table({
    caption: 'Second meter against first',
    columns,
    rows: [
      {
        what: 'Second less first, mean',
        value: `${lactate(bias)} (standard error ${formatNumber(biasError, 2)})`,
      },
      { what: 'Limits of agreement', value: `${formatChange(limits.low, 2)} to ${lactate(limits.high)}` },
      {
        what: 'Line, both with error',
        value: `second = ${formatNumber(line.intercept, 2)} + ${formatNumber(line.slope, 3)} · first`,
      },
    ],
    note:
      'The limits hold 95 % of the differences of single samples: where they are wider than what you want to see, tests by the ' +
      'two meters cannot be compared. Bland & Altman 1986, Lancet 327:307–310; Deming 1943 (both from memory).',
  });
}

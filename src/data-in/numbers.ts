/** The decimal mark of a whole table: what its unmistakable numbers use. */
export type DecimalMark = '.' | ',' | 'both' | 'unknown';

/** One entry of a table as text says it, before its column gives it a meaning. */
export type Entry =
  | { kind: 'missing' }
  /** `unit` is whatever follows the number, '' for nothing. */
  | { kind: 'number'; value: number; unit: string; decimals: boolean }
  /** Hours, minutes and seconds with colons. */
  | { kind: 'clock'; seconds: number; unit: string }
  /** `reason` completes a sentence that begins with the entry in quotation marks. */
  | { kind: 'unreadable'; reason: string };

const MISSING = /^(|[-–—]+|n\.?\s?a\.?|n\/a|nan|null|none|missing)$/i;
const NUMBER = /^([+-]?)(\d*)(?:([.,])(\d+))?\s*([^\d\s.,:+-].*|\/\s*500.*)?$/;
const CLOCK = /^(?:(\d+):)?(\d+):(\d{1,2}(?:[.,]\d+)?)\s*(\D.*|\/\s*500.*)?$/;
/** 4'30", 4′30″ and 4 min 30 s are written as 4:30. */
const PRIMES = /^(\d+)\s*['′’]\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:"|″|”|''|′′)?)?\s*/;
const WORDS = /^(\d+)\s*m(?:in)?\.?\s*(\d{1,2}(?:[.,]\d+)?)\s*s(?:ec)?\b\.?\s*/i;
const THOUSANDS = /^[+-]?\d{1,3}([.,' ]\d{3})+([.,]\d+)?\b/;

const plain = (text: string) => text.normalize('NFKC').replaceAll('\u2212', '-').replace(/\s+/g, ' ').trim();

/** '1,234' may be 1.234 or 1234; '0,234', '1,23' and '1234,5' can only be decimals. */
const couldBeThousands = (whole: string, decimals: string) =>
  decimals.length === 3 && whole.length <= 3 && !/^0*$/.test(whole);

/** The decimal mark that the unmistakable numbers of a table use. */
export function decimalMark(entries: Iterable<string>): DecimalMark {
  const seen = new Set<string>();
  for (const entry of entries) {
    const [, , whole = '', mark, decimals = ''] = NUMBER.exec(plain(entry)) ?? [];
    if (mark && !couldBeThousands(whole, decimals)) seen.add(mark);
  }
  if (seen.size === 2) return 'both';
  return seen.has(',') ? ',' : seen.has('.') ? '.' : 'unknown';
}

/** A comma before three digits is a decimal mark only if the rest of the table says so; a point, unless it says not. */
const isAmbiguous = (mark: string, table: DecimalMark) =>
  mark === ',' ? table !== ',' : table === ',' || table === 'both';

function readClock(text: string): Entry | null {
  const match = CLOCK.exec(text);
  if (!match) return null;
  const [, hours = '0', minutes = '0', secondsText = '0', unit = ''] = match;
  const seconds = Number(secondsText.replace(',', '.'));
  if (seconds >= 60) return { kind: 'unreadable', reason: 'has 60 or more seconds' };
  if (match[1] !== undefined && Number(minutes) >= 60)
    return { kind: 'unreadable', reason: 'has 60 or more minutes beside its hours' };
  return { kind: 'clock', seconds: Number(hours) * 3600 + Number(minutes) * 60 + seconds, unit };
}

/**
 * Number, time or missing value in one entry of a table, with a decimal point or comma and a unit behind it.
 *
 * Missing   nothing, dashes, NA, n/a, NaN, null, none, missing
 *
 * @example
 * readEntry('4:30', '.') // { kind: 'clock', seconds: 270, unit: '' }
 */
export function readEntry(text: string, table: DecimalMark): Entry {
  const entry = plain(text)
    .replace(PRIMES, (_, m, s = '00') => `${m}:${s}`)
    .replace(WORDS, '$1:$2 ');
  if (MISSING.test(entry)) return { kind: 'missing' };
  const clock = readClock(entry);
  if (clock) return clock;
  const [, sign = '', whole = '', mark, decimals, unit = ''] = NUMBER.exec(entry) ?? [];
  if (whole === '' && decimals === undefined) {
    if (THOUSANDS.test(entry))
      return { kind: 'unreadable', reason: 'has a thousands separator; write it without' };
    return { kind: 'unreadable', reason: 'is not a number' };
  }
  if (mark && couldBeThousands(whole, decimals!) && isAmbiguous(mark, table))
    return {
      kind: 'unreadable',
      reason: `can be read as ${whole}.${decimals} or as ${whole}${decimals}; write it with another number of decimals or without separators`,
    };
  const value = Number(`${sign}${whole || '0'}.${decimals ?? '0'}`);
  return { kind: 'number', value, unit: unit.trim(), decimals: mark !== undefined };
}

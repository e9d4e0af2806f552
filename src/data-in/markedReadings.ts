const NUMBER = String.raw`\d*[.,]?\d+`;
/** What a meter shows or a laboratory writes for a lactate that lies outside what it can measure. */
const BELOW = new RegExp(String.raw`^(?:[<≤]\s*${NUMBER}.*|lo)$`, 'iu');
const ABOVE = new RegExp(String.raw`^(?:[>≥]\s*${NUMBER}.*|hi)$`, 'iu');
/** A number that somebody was not sure of, or that a footnote belongs to. */
const MARKED = new RegExp(String.raw`^(?:[~≈(]\s*${NUMBER}|${NUMBER}\s*[*†‡§#?!(])`, 'u');

/**
 * What an entry that is no plain number most likely stands for and what to do, completing a sentence that begins with it;
 * null for any other. Nothing is guessed from it: a limit is no reading.
 *
 * @example
 * markedReading('<0.5', true) // 'lies below what the meter can show; leave it empty, or give the reading if there is one'
 */
export function markedReading(text: string, isLactate: boolean): string | null {
  const entry = text.trim();
  if (isLactate && BELOW.test(entry)) return outside('below');
  if (isLactate && ABOVE.test(entry)) return outside('above');
  return MARKED.test(entry)
    ? 'has a mark that is not known here; give the number alone if it stands, or leave it empty'
    : null;
}

const outside = (side: 'below' | 'above') =>
  `lies ${side} what the meter can show; leave it empty, or give the reading if there is one`;

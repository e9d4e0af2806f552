import type { Account } from './accounts.ts';

/** A number with its noun: '1 rep', '3 reps'; `many` for a plural that is not made by an s. */
export const counted = (count: number, word: string, many = `${word}s`): string =>
  `${count} ${count === 1 ? word : many}`;

/** 'a, b and c' */
export const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;

/** Rows with their reasons, those with the same reason together: 'row 9 (no lactate); rows 3 and 5 (empty)'. */
function rowsInWords(leftOut: Account['leftOut']): string {
  const reasons = [...new Set(leftOut.map(({ why }) => why))];
  return reasons
    .map((reason) => {
      const numbers = leftOut.filter(({ why }) => why === reason).map(({ row }) => row + 1);
      return `${numbers.length === 1 ? 'row' : 'rows'} ${runsInWords(numbers)} (${reason})`;
    })
    .join('; ');
}

/** Numbers that follow one another as from and to: '2, 4 to 6 and 9'. */
function runsInWords(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last?.[1] === number - 1) last[1] = number;
    else runs.push([number, number]);
  }
  const words = runs.flatMap(([from, to]) =>
    to - from > 1 ? [`${from} to ${to}`] : from === to ? [`${from}`] : [`${from}`, `${to}`],
  );
  return listed(words);
}

/** An account as sentences. */
export function accountInWords({ read, leftOut }: Account, rows: number): string {
  const from = `Read: ${read}, from ${counted(rows, 'row')}.`;
  return leftOut.length === 0 ? from : `${from} Left out: ${rowsInWords(leftOut)}.`;
}

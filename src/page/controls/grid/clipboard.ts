/**
 * Entries of a block copied from a spreadsheet: tabs between entries, line ends between rows. An entry in double
 * quotes may hold both, and a doubled quote in it stands for one.
 */
export function readBlock(text: string): string[][] {
  const rows: string[][] = [[]];
  const entry = /(?:"((?:[^"]|"")*)"|([^\t\r\n]*))(\t|\r\n|\n|\r|$)/y;
  while (entry.lastIndex < text.length) {
    // The second alternative takes anything, so this always matches and always moves on.
    const [, quoted, bare, end] = entry.exec(text)!;
    rows.at(-1)!.push((quoted?.replaceAll('""', '"') ?? bare!).trim());
    if (end !== '\t' && entry.lastIndex < text.length) rows.push([]);
    if (end === '\t' && entry.lastIndex === text.length) rows.at(-1)!.push('');
  }
  return rows;
}

const NUMBER = /^[<>]?[+−-]?\d+(?:[.,:]\d+)*$/;

/** A whole table brings its heading line along: several entries, at least one with letters, none a number. */
export function bringsHeadings(text: string): boolean {
  const [first = '', second] = text.split(/\r\n|\n|\r/).filter((line) => line.trim() !== '');
  const separator = ['\t', ';', ','].find((mark) => first.includes(mark));
  if (second === undefined || separator === undefined) return false;
  const entries = first.split(separator).map((entry) => entry.replaceAll('"', '').trim());
  return entries.some((entry) => /\p{L}/u.test(entry)) && !entries.some((entry) => NUMBER.test(entry));
}

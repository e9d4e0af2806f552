/** One replacement in a text. */
interface Edit {
  from: number;
  to: number;
  insert: string;
}

const IMPORT =
  /^[ \t]*import\s+(type\s+)?(?:([\w$]+)\s*,?\s*)?(\{[^}]*\})?\s*(?:from\s*)?(['"])([^'"\n]+)\4;?[ \t]*$/gm;

interface Found {
  end: number;
  source: string;
  /** Where the braces stand, when there are any and names may be added to them. */
  braces: { from: number; to: number; names: string[] } | null;
}

function imports(text: string): Found[] {
  return [...text.matchAll(IMPORT)].map((match) => {
    const [whole, type, , list, , source] = match;
    const from = list === undefined ? -1 : match.index + whole.indexOf(list);
    const names = (list ?? '')
      .slice(1, -1)
      .split(',')
      .map((name) => name.trim());
    return {
      end: match.index + whole.length,
      source: source!,
      braces:
        list === undefined || type !== undefined
          ? null
          : { from, to: from + list.length, names: names.filter(Boolean) },
    };
  });
}

const localName = (entry: string): string =>
  entry
    .split(/\s+as\s+/)
    .at(-1)!
    .replace(/^type\s+/, '');

/** The change that makes `name` of `source` available in a cell's text, or null when it is already there. */
export function importEdit(text: string, name: string, source: string): Edit | null {
  const found = imports(text);
  if (found.some((one) => one.braces?.names.some((entry) => localName(entry) === name))) return null;
  const braces = found.find((one) => one.source === source && one.braces)?.braces;
  if (braces) {
    return { from: braces.from, to: braces.to, insert: `{ ${[...braces.names, name].join(', ')} }` };
  }
  const line = `import { ${name} } from '${source}';`;
  const last = found.at(-1);
  return last
    ? { from: last.end, to: last.end, insert: `\n${line}` }
    : { from: 0, to: 0, insert: `${line}\n\n` };
}

/** What a new cell begins with: code, or text to be read. */
export type CellKind = 'code' | 'prose';

const TEXTS: Record<CellKind, string> = {
  code: `// Import what this cell reads, export what others may read, show the default export.
export const answer = 6 * 7;

export default answer;
`,
  prose: `import { prose } from '#hourline';

export default prose\`
  ### A heading

  Write here. *Emphasis*, lists and tables are written as in Markdown.
\`;
`,
};

const STEMS: Record<CellKind, string> = { code: 'cell', prose: 'note' };

/** Text and free name of a new cell. */
export function newCell(kind: CellKind, taken: readonly string[]): { name: string; text: string } {
  for (let number = 1; ; number++) {
    const name = `${STEMS[kind]}-${number}.ts`;
    if (!taken.includes(name)) return { name, text: TEXTS[kind] };
  }
}

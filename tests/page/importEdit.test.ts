import { describe, expect, test } from 'vitest';
import { importEdit } from '../../src/page/editor/importEdit.ts';

function applied(text: string, name: string, source: string): string {
  const edit = importEdit(text, name, source);
  return edit === null ? text : text.slice(0, edit.from) + edit.insert + text.slice(edit.to);
}

describe('importEdit', () => {
  test('adds the name to an import of the same source', () => {
    expect(applied("import { a } from '#hourline';\na();", 'b', '#hourline')).toBe(
      "import { a, b } from '#hourline';\na();",
    );
  });

  test('adds a line after the last import', () => {
    expect(applied("import { a } from './a.ts';\n\na;", 'b', './b.ts')).toBe(
      "import { a } from './a.ts';\nimport { b } from './b.ts';\n\na;",
    );
  });

  test('starts a text that imports nothing with the import', () => {
    expect(applied('b();', 'b', '#hourline')).toBe("import { b } from '#hourline';\n\nb();");
  });

  test('leaves a name that is there, also under its local name', () => {
    expect(importEdit("import { a } from './a.ts';", 'a', './a.ts')).toBeNull();
    expect(importEdit("import { x as a } from './x.ts';", 'a', './a.ts')).toBeNull();
  });

  test('does not add a value to an import of types', () => {
    expect(applied("import type { T } from '#hourline';", 'b', '#hourline')).toBe(
      "import type { T } from '#hourline';\nimport { b } from '#hourline';",
    );
  });

  test('reads imports over several lines and keeps a default import', () => {
    expect(applied("import d, {\n  a,\n  c,\n} from './m.ts';\n", 'b', './m.ts')).toBe(
      "import d, { a, c, b } from './m.ts';\n",
    );
  });
});

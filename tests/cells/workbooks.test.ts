import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { shown } from './shown.ts';
import { cellsIn, WORKBOOKS } from './workbook.ts';

const root = path.resolve(import.meta.dirname, '../..');

vi.setConfig({ testTimeout: 60_000 });

/** Lines that are neither imports nor empty nor the text of a template. */
function linesOfCode(text: string): number {
  const bare = text.replace(/^import[\s\S]*?;\n/gm, '').replace(/`[^`]*`/g, '``');
  return bare.split('\n').filter((line) => line.trim() !== '').length;
}

describe.each(WORKBOOKS)('the workbook %s', (workbook) => {
  test('runs without a document, error or warning, and shows nothing unfit', async () => {
    const { text } = await shown({}, workbook);
    expect([...text.values()].join('')).toContain('# ');
  });

  test('no cell is longer than a paragraph: 25 lines of code, none wider than the column beside a result', () => {
    for (const [name, text] of cellsIn(workbook)) {
      expect(linesOfCode(text), name).toBeLessThanOrEqual(25);
      const code = text.replace(/# Invented data[^`]*/, '');
      for (const line of code.split('\n')) expect(line.length, `${name}: ${line}`).toBeLessThanOrEqual(62);
    }
  });
});

// The athletes of the lesson are simulated.
test.each(WORKBOOKS.filter((workbook) => workbook !== 'lesson'))(
  'in the workbook %s the cautions stand before the first table',
  async (workbook) => {
    const { text, engine } = await shown({}, workbook);
    const names = engine.states().map(({ name }) => name);
    const firstTable = engine
      .states()
      .findIndex(({ controls }) => controls.some(({ control }) => control.control === 'grid'));
    expect(names.indexOf('05-cautions.ts')).toBeGreaterThan(-1);
    expect(names.indexOf('05-cautions.ts')).toBeLessThan(firstTable);
    expect(text.get('05-cautions')).toContain('leave medical questions to a doctor');
  },
);

test('the count of lines passes over imports, prose and empty lines, and sees code', () => {
  const cell =
    "import {\n  prose,\n} from '#hourline';\n\nconst a = 1;\n\nexport default prose`\n  one\n  two`;\n";
  expect(linesOfCode(cell)).toBe(2);
});

test.each([
  ['athlete/20-stages', 'invented-cyclist'],
  ['athlete-runner/20-stages', 'invented-half-marathon-runner'],
  ['methods/20-stages', 'invented-cyclist'],
  ['methods/22-recovery', 'invented-recovery'],
  ['lactate-minimum/15-table', 'invented-lactate-minimum'],
  ['reverse/15-table', 'invented-reverse'],
  ['bouts/20-bouts', 'invented-bouts'],
  ['athlete/100-session', 'invented-session-cyclist'],
  ['athlete-runner/100-session', 'invented-session-runner'],
  ['athlete/120-efforts', 'invented-efforts'],
  ['athlete-runner/120-efforts', 'invented-runner-efforts'],
  ['athlete/130-week', 'invented-week'],
  ['athlete-runner/130-week', 'invented-runner-week'],
  ['athlete/140-earlier', 'invented-cyclist-earlier'],
  ['athlete-runner/140-earlier', 'invented-runner-earlier'],
])(
  'the table in cells/%s is data/%s.csv, says that it is invented, and has a line in SOURCES',
  (cell, file) => {
    const csv = readFileSync(path.join(root, 'data', `${file}.csv`), 'utf8').trimEnd();
    expect(csv).toMatch(/^# Invented data/);
    const [folder, name] = cell.split('/');
    const text = cellsIn(folder!).get(`${name}.ts`)!;
    expect(text).toContain(`\`${csv}\n\``);
    expect(text).toContain('**invented**');
    expect(readFileSync(path.join(root, 'data/SOURCES.md'), 'utf8')).toContain(`\`${file}.csv\``);
  },
);

import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { readSharePage } from '../../src/host/share/embedded.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(path.join(tmpdir(), 'hourline-share-'));
const CYCLIST = 'data/invented-cyclist.csv';
// A whole workbook runs in a new process each time, and a busy machine takes its time.
const TIMEOUT = 120_000;

interface Run {
  code: number;
  stdout: string;
  stderr: string;
}

const share = (...args: string[]): Promise<Run> =>
  new Promise((resolve) => {
    const program = ['--import', 'tsx', 'src/tools/share.ts', ...args];
    execFile(process.execPath, program, { cwd: root, maxBuffer: 1e8 }, (error, stdout, stderr) =>
      resolve({ code: error ? Number(error.code) : 0, stdout, stderr }),
    );
  });

function fileWith(name: string, text: string): string {
  const file = path.join(folder, name);
  writeFileSync(file, text);
  return file;
}

const workbook = (text: string) =>
  JSON.stringify({
    format: 'hourline-workbook-1',
    title: 'W',
    shipped: null,
    cells: [{ name: 'a.ts', text }],
    settings: {},
    changed: '2026-01-01T00:00:00.000Z',
  });

test(
  'a table becomes a page with pictures that runs nothing, and is the workbook again',
  async () => {
    const page = path.join(folder, 'page.html');
    const { code, stdout } = await share(CYCLIST, '-o', page);
    expect({ code, stdout }).toEqual({ code: 0, stdout: '' });
    const html = readFileSync(page, 'utf8');
    expect(html).not.toContain('cannot be drawn');
    expect(html).not.toContain('No result.');
    expect(html.match(/<svg/g)!.length).toBeGreaterThan(5);
    // The one script is the workbook's text, which no browser runs.
    expect(html.match(/<script[^>]*>/g)).toEqual(['<script type="application/json" id="hourline-workbook">']);
    const { document, altered } = await readSharePage(html);
    expect({ title: document.title, altered }).toEqual({ title: 'invented-cyclist', altered: false });
    const again = await share(page, '-o', '-');
    expect({ code: again.code, stderr: again.stderr }).toEqual({ code: 0, stderr: '' });
    expect(again.stdout.match(/<svg/g)).toHaveLength(html.match(/<svg/g)!.length);
  },
  TIMEOUT,
);

test(
  'a workbook with code of its own is not run, unless somebody vouches for it',
  async () => {
    const mark = path.join(folder, 'mark');
    const code = `globalThis.process.getBuiltinModule('node:fs').writeFileSync(${JSON.stringify(mark)}, '');\nexport default 'forty-two';`;
    const file = fileWith('own.json', workbook(code));
    const refused = await share(file, '-o', '-');
    expect(refused.code).toBe(2);
    expect(refused.stdout).toBe('');
    expect(refused.stderr).toMatch(
      /: a\.ts is not as shipped, and code of others runs in the browser alone; .*\n$/,
    );
    expect(() => readFileSync(mark)).toThrow();
    const trusted = await share(
      fileWith('fine.json', workbook(`export default 'forty-two';`)),
      '--trusted',
      '-o',
      '-',
    );
    expect(trusted.code).toBe(0);
    expect(trusted.stdout).toContain('<p>forty-two</p>');
  },
  TIMEOUT,
);

test.each([
  [['-o', 'x.html'], /^expected one FILE and -o page\.html/],
  [['nowhere.csv', '-o', 'x.html'], /^nowhere\.csv: cannot be read \(ENOENT\)\n$/],
  [[CYCLIST, '-o', 'x.html', '--sport', 'chess'], /^--sport chess: expected one of cycling/],
  [[CYCLIST, '-o', 'x.html', '--fast'], /no such options/],
  [[CYCLIST, '-o', 'no-such-folder/x.html'], /^no-such-folder\/x\.html: cannot be written \(ENOENT\)\n$/],
])(
  '%j: one sentence, exit code 2',
  async (args, sentence) => {
    const { code, stdout, stderr } = await share(...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(sentence);
  },
  TIMEOUT,
);

test(
  'a table that cannot be read',
  async () => {
    const { code, stderr } = await share(fileWith('bad.csv', 'power,lactate\n100,x\n'), '-o', '-');
    expect(code).toBe(2);
    expect(stderr).toMatch(/bad\.csv, line 2, .*"x" is not a number/);
  },
  TIMEOUT,
);

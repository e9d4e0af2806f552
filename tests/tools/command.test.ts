import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
// Sources are translated file by file, in each thread anew.
const TIMEOUT = 120_000;

/** A copy of the command line whose programs cannot be made, since a file stands where their folder would be. */
function copyWithoutRoom(): string {
  const copy = mkdtempSync(path.join(tmpdir(), 'hourline-command-'));
  for (const part of ['src', 'data', 'package.json'])
    cpSync(path.join(root, part), path.join(copy, part), { recursive: true });
  mkdirSync(path.join(copy, 'node_modules'));
  for (const name of readdirSync(path.join(root, 'node_modules')))
    if (name !== '.hourline-command')
      symlinkSync(path.join(root, 'node_modules', name), path.join(copy, 'node_modules', name));
  writeFileSync(path.join(copy, 'node_modules', '.hourline-command'), '');
  return copy;
}

const run = (folder: string, args: string[], input = '') =>
  execFileSync(process.execPath, ['src/tools/command.mjs', ...args], {
    cwd: folder,
    input,
    encoding: 'utf8',
    maxBuffer: 1e8,
  });

test(
  'where no programs can be made, the sources answer the same',
  () => {
    const copy = copyWithoutRoom();
    const one = ['data/invented-cyclist.csv', '--json', '--draws', '50'];
    expect(run(copy, one)).toBe(run(root, one));
    // Enough lines for threads to take them.
    const stages = [1, 1.1, 1.6, 2.9, 6].map((lactate, i) => ({ power: 100 + 40 * i, lactate }));
    const lines = Array.from({ length: 3000 }, (_, id) => `${JSON.stringify({ id, stages })}\n`).join('');
    const many = run(copy, ['--batch'], lines);
    expect(many.trim().split('\n')).toHaveLength(3000);
    expect(many).toBe(run(root, ['--batch'], lines));
  },
  TIMEOUT,
);

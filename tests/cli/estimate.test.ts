import { execFile, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const PROGRAM = ['src/tools/command.mjs'];
/** What is run where no program can be kept. */
const SOURCES = ['--import', 'tsx', 'src/cli/estimate.ts'];
const CYCLIST = 'data/invented-cyclist.csv';
const TIMEOUT = 60_000;

interface Run {
  code: number;
  stdout: string;
  stderr: string;
}

function run(program: string, args: string[], input = ''): Promise<Run> {
  return new Promise((resolve) => {
    const child = execFile(program, args, { cwd: root }, (error, stdout, stderr) =>
      resolve({ code: error ? Number(error.code) : 0, stdout, stderr }),
    );
    child.stdin?.end(input);
  });
}

const estimate = (args: string[], input?: string) => run(process.execPath, [...PROGRAM, ...args], input);

test(
  'as the reader types it: npm run takes the file and the options after --',
  async () => {
    const args = [
      'run',
      '--silent',
      'estimate',
      '--',
      'tests/cli/files/10-pre.csv',
      '--curve',
      'cubic',
      '--json',
    ];
    const { code, stdout, stderr } = await run('npm', args);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const { estimates } = JSON.parse(stdout) as { estimates: { method: string; intensity: number }[] };
    // R 4.2 lm and numpy: 342.9644446416 W.
    expect(estimates.find((e) => e.method === 'fixed-4.0')!.intensity).toBeCloseTo(342.9644446416, 6);
  },
  TIMEOUT,
);

test(
  'a table on standard input',
  async () => {
    const { code, stdout, stderr } = await estimate(
      ['-', '--draws', '0'],
      'W;La\n100;1,0\n150;1,2\n200;2,2\n250;4,8\n',
    );
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toMatch(/^standard input: cycling, 4 stages; /);
  },
  TIMEOUT,
);

test(
  'a batch on standard input, answered by threads in its order, a bad test in its own line',
  async () => {
    const record = (id: number) => ({
      id,
      sport: 'running',
      stages: [10, 11, 12, 13, 14].map((speed, i) => ({ speed, lactate: [1, 1.1, 1.5, 2.6, 5.2][i] })),
    });
    const lines = Array.from({ length: 40 }, (_, i) => JSON.stringify(i === 7 ? { id: 7 } : record(i)));
    const { code, stdout, stderr } = await estimate(['--batch', '--draws', '50'], lines.join('\n'));
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const answers = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { id: number; error?: string });
    expect(answers.map(({ id }) => id)).toEqual(lines.map((_, i) => i));
    expect(answers.flatMap(({ id, error }) => (error ? [id] : []))).toEqual([7]);
    const fromSources = await run(
      process.execPath,
      [...SOURCES, '--batch', '--draws', '50'],
      lines.join('\n'),
    );
    expect(fromSources).toEqual({ code, stdout, stderr });
  },
  TIMEOUT,
);

const BAD = 'power,HR,lactate\n100,110,1.0\n150,400,1.4\n';

test.each<[string, string[], string, RegExp]>([
  [
    'a bad entry',
    ['-'],
    BAD,
    /^standard input, line 3, character 5, field 2 "HR": heart rate "400" is not possible; .*\n$/,
  ],
  ['a bad entry, as JSON', ['-', '--json'], BAD, /^standard input, line 3, character 5, field 2 "HR": .*\n$/],
  ['no such file', ['nowhere.csv'], '', /^nowhere\.csv: no such file\n$/],
  ['a folder', ['data'], '', /^data: a folder; expected a CSV file\n$/],
  ['a batch without tests', ['--batch'], '', /^standard input: empty; .*\n$/],
  ['a batch from nowhere', ['--batch', 'nowhere'], '', /^nowhere: no such file\n$/],
  ['an unknown option', [CYCLIST, '--fast'], '', /^--fast: no such option; there are .*--seed.*\n$/],
])(
  '%s: one sentence, exit code 2, nothing on standard output',
  async (_, args, input, sentence) => {
    const { code, stdout, stderr } = await estimate(args, input);
    expect(stderr).toMatch(sentence);
    expect(stderr.split('\n')).toHaveLength(2);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
  },
  TIMEOUT,
);

test(
  'whoever stops reading early is no fault',
  async () => {
    const child = spawn(process.execPath, [...PROGRAM, CYCLIST], { cwd: root });
    child.stdout.destroy();
    let stderr = '';
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
    });
    await new Promise((resolve) => child.on('close', resolve));
    expect(stderr).toBe('');
  },
  TIMEOUT,
);

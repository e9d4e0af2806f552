import { execFileSync, spawn } from 'node:child_process';
import path from 'node:path';
import { Random } from '../../src/numerics/random.ts';
import type { Measured } from './figures.ts';

const root = path.resolve(import.meta.dirname, '../..');
const TESTS = 10_000;
const LINE_FEED = 0x0a;
const COMMAND = 'src/tools/command.mjs';

/** Invented tests of 6 to 9 stages on some plans, lactate rising at the end as in real ones. */
function records(count: number): string {
  const random = new Random(20261125);
  const lines = Array.from({ length: count }, (_, id) => {
    const stages = 6 + (id % 4);
    const [start, step] = [80 + 10 * (id % 3), 25 + 5 * (id % 2)];
    const growth = 5 + 0.8 * random.uniform();
    const lactate = (i: number) => 0.9 + 0.02 * Math.exp((growth * i) / (stages - 1)) + 0.1 * random.normal();
    return JSON.stringify({
      id,
      sport: 'cycling',
      stages: Array.from({ length: stages }, (_, i) => ({
        power: start + step * i,
        lactate: Number(Math.max(0.3, lactate(i)).toFixed(1)),
        heartRate: 110 + 9 * i,
        minutes: 4,
      })),
    });
  });
  return `${lines.join('\n')}\n`;
}

/**
 * How long the command takes for 10,000 tests on standard input, with its start: wall time, CPU time of all threads, the same
 * for one test, and the largest memory. Where the machine was busy, read the CPU time. The program is made before, which
 * happens only after a change.
 */
export async function batch(draws: number, budget: string): Promise<Measured> {
  const watched = `process.on('exit', () => { const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage(); process.stderr.write(JSON.stringify({ cpu: (userCPUTime + systemCPUTime) / 1e6, memory: maxRSS / 1024 })); });`;
  execFileSync(process.execPath, [COMMAND, '--help'], { cwd: root });
  const input = records(TESTS);
  const start = performance.now();
  const child = spawn(
    process.execPath,
    [
      '--import',
      `data:text/javascript,${encodeURIComponent(watched)}`,
      COMMAND,
      '--batch',
      '--draws',
      String(draws),
    ],
    { cwd: root },
  );
  let lines = 0;
  let usage = '';
  child.stdout.on('data', (chunk: Buffer) => {
    for (let at = chunk.indexOf(LINE_FEED); at >= 0; at = chunk.indexOf(LINE_FEED, at + 1)) lines++;
  });
  child.stderr.on('data', (chunk) => {
    usage += chunk;
  });
  child.stdin.end(input);
  await new Promise((resolve) => child.on('close', resolve));
  const seconds = (performance.now() - start) / 1000;
  if (lines !== TESTS) throw new Error(`${lines} lines of output for ${TESTS} tests: ${usage}`);
  const { cpu, memory } = JSON.parse(usage) as { cpu: number; memory: number };
  return {
    what: `batch of ${TESTS} tests, all methods, ${draws} draws (wall, CPU, CPU a test, memory)`,
    figure: `${seconds.toFixed(1)} s, ${cpu.toFixed(1)} s, ${((1000 * cpu) / TESTS).toFixed(2)} ms, ${memory.toFixed(0)} MB`,
    budget,
  };
}

import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { HANDHELD } from '../../src/physiology/errorModel.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { Sampler } from '../../src/physiology/samplingError.ts';
import { stepTest } from '../physiology/stepTests.ts';
import type { Measured } from './figures.ts';

/** The methods that all three programs know. */
export const METHODS = [
  ...['first-rise', 'baseline-plus-0.5', 'baseline-plus-1.0', 'baseline-plus-1.5'],
  ...['fixed-2.0', 'fixed-3.0', 'fixed-3.5', 'fixed-4.0', 'log-log'],
  ...['minimum-equivalent', 'minimum-equivalent-plus-1.5', 'dmax', 'dmax-exponential', 'modified-dmax'],
  ...['turn-point-1', 'turn-point-2'],
];
/** Draws of the batched program and ours, of the plain script, and rounds in which they take turns. */
const DRAWS = 10_000;
const PLAIN_DRAWS = 60;
const ROUNDS = 5;

/** An invented smooth test of eight stages. */
export const X = Array.from({ length: 8 }, (_, i) => 120 + (240 * i) / 7);
export const Y = X.map((x) => 0.9 + 0.02 * Math.exp((x - 120) / 42));

interface Told {
  microseconds: number;
  /** Mean, standard deviation and share refused of each method. */
  answers: Record<string, [number, number, number]>;
}

/** One run of a Python program; null where Python has no numpy and scipy. */
function python(script: string, draws: number, rounds: number): Told | null {
  const given = JSON.stringify({ x: X, y: Y, error: HANDHELD, draws, rounds });
  const file = path.join(import.meta.dirname, 'python', script);
  // One thread, as ours has one.
  const env = { ...process.env, OPENBLAS_NUM_THREADS: '1', OMP_NUM_THREADS: '1' };
  const { status, stdout } = spawnSync('python3', [file], { input: given, encoding: 'utf8', env });
  return status === 0 ? (JSON.parse(stdout) as Told) : null;
}

function sampler(): Sampler {
  const readings = usableReadings(stepTest(X, Y), { toExhaustion: true });
  const options = { curve: 'cubic' } as const;
  return new Sampler(readings, {
    methods: METHODS,
    options,
    error: HANDHELD,
    seed: 1,
    intensityScale: 'device',
  });
}

/** Microseconds a draw, the best of ten runs: on a machine that others use too, the least is the steadiest; and what the draws say. */
function ours(): Told {
  const taken: number[] = [];
  const one = sampler();
  for (let run = 0; run < 10; run++) {
    const start = performance.now();
    one.run(DRAWS);
    taken.push(performance.now() - start);
  }
  const answers = one
    .summary()
    .methods.map(({ method, mean, sd, refusedShare }) => [method, [mean!, sd!, refusedShare]] as const);
  return {
    microseconds: (1000 * Math.min(...taken)) / DRAWS,
    answers: Object.fromEntries(answers) as Told['answers'],
  };
}

/** Largest difference of a mean, in its standard errors: that the programs compute the same. */
function furthest(a: Told, b: Told, draws: number): string {
  const gaps = METHODS.map((id) => {
    const [[mean, sd], [other]] = [a.answers[id]!, b.answers[id]!];
    return { id, gap: Math.abs(mean - other) / (sd * Math.sqrt(1 / draws + 1 / (10 * DRAWS))) };
  });
  const { id, gap } = gaps.reduce((most, one) => (one.gap > most.gap ? one : most));
  return `largest difference of a mean ${gap.toFixed(1)} standard errors (${id})`;
}

/** Ratios of our speed to those of the two Python programs, all taking turns in one run; their lines to print. */
export function referenceLines(): Measured[] {
  const rounds = Array.from({ length: ROUNDS }, () => ({
    ours: ours(),
    batched: python('batched.py', DRAWS, 6),
  }));
  const known = rounds.flatMap(({ ours: own, batched }) => (batched ? [{ own, batched }] : []));
  if (known.length === 0) {
    return [
      {
        what: 'against numpy and scipy: not run, python3 has no numpy and scipy here',
        figure: '–',
        budget: '',
      },
    ];
  }
  const own = Math.min(...known.map((round) => round.own.microseconds));
  const batched = Math.min(...known.map((round) => round.batched.microseconds));
  const plain = python('plain.py', PLAIN_DRAWS, 1)!.microseconds;
  const same = furthest(known[0]!.batched, known[0]!.own, DRAWS);
  const micro = (value: number) => `${value.toFixed(value < 100 ? 1 : 0)} µs`;
  return [
    { what: `16 methods, 8 stages, one draw: ours in Node`, figure: micro(own), budget: '' },
    { what: `the same in numpy, ${DRAWS} draws at once; ${same}`, figure: micro(batched), budget: '' },
    { what: 'the same by a plain script with numpy and scipy', figure: micro(plain), budget: '' },
    { what: 'times faster than batched numpy', figure: (batched / own).toFixed(2), budget: 'at least 2.5' },
    { what: 'times faster than the plain script', figure: (plain / own).toFixed(0), budget: 'at least 5000' },
  ];
}

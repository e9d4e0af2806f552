// `npm run calibration`: do the intervals hold what they promise? Simulated tests of several types of athletes, whose
// answers without noise are known; writes tests/calibration/coverage.md. One process for each kind of meter.
import { fork } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { BENCH, HANDHELD } from '../../src/physiology/errorModel.ts';
import { ATHLETES } from './athletes.ts';
import { coverageOf, type MethodCoverage } from './coverage.ts';
import { coverageReport } from './report.ts';

const METERS = { handheld: HANDHELD, bench: BENCH } as const;
type Meter = keyof typeof METERS;

/** Simulated tests of each type with each meter, draws for each interval, seed of the first type. */
const TESTS = 2000;
const DRAWS = 1000;
const SEED = 20261125;

export interface TypeCoverage {
  meter: string;
  type: string;
  methods: MethodCoverage[];
}

function measure(meter: Meter): void {
  ATHLETES.forEach((type, k) => {
    const methods = coverageOf(type, { error: METERS[meter], tests: TESTS, draws: DRAWS, seed: SEED + k });
    process.send!({ meter, type: type.name, methods } satisfies TypeCoverage);
  });
}

function measureApart(meter: Meter): Promise<TypeCoverage[]> {
  const found: TypeCoverage[] = [];
  const child = fork(import.meta.filename, [meter]);
  child.on('message', (message) => {
    const coverage = message as TypeCoverage;
    console.log(`${coverage.meter}: ${coverage.type}`);
    found.push(coverage);
  });
  return new Promise((resolve, reject) => {
    child.on('exit', (code) =>
      code === 0 ? resolve(found) : reject(new Error(`${meter} ended with ${code}`)),
    );
  });
}

const meter = process.argv[2] as Meter | undefined;
if (meter !== undefined) measure(meter);
else {
  const found = await Promise.all((Object.keys(METERS) as Meter[]).map(measureApart));
  const report = coverageReport(found.flat(), { tests: TESTS, draws: DRAWS, seed: SEED });
  writeFileSync(path.join(import.meta.dirname, 'coverage.md'), report);
  console.log('tests/calibration/coverage.md');
}

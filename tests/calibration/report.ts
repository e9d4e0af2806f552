import { methodById } from '../../src/physiology/methods/index.ts';
import type { MethodCoverage } from './coverage.ts';
import type { TypeCoverage } from './run.ts';

/** What intervals are to hold, as shares; the bounds are those that the figures are called good within. */
export const BOUNDS = { held95: [0.93, 0.97], held80: [0.77, 0.83] } as const;

export const isGood = (coverage: MethodCoverage): boolean =>
  (Object.keys(BOUNDS) as (keyof typeof BOUNDS)[]).every(
    (held) => coverage[held] >= BOUNDS[held][0] && coverage[held] <= BOUNDS[held][1],
  );

const percent = (share: number) => (100 * share).toFixed(1);

function row(coverage: MethodCoverage): string {
  const { method, tests, determined, held95, held80, bias, spread } = coverage;
  const name = methodById(method).name;
  const mark = isGood(coverage) ? '' : ' †';
  const cells = [
    name + mark,
    tests,
    percent(determined),
    percent(held95),
    percent(held80),
    bias.toFixed(2),
    spread.toFixed(2),
  ];
  return `| ${cells.join(' | ')} |`;
}

const section = ({ meter, type, methods }: TypeCoverage): string =>
  [
    `### ${type}, ${meter}`,
    '',
    '| method | intervals | of tests, % | 95 % hold, % | 80 % hold, % | bias | spread |',
    '|---|--:|--:|--:|--:|--:|--:|',
    ...methods.map(row),
  ].join('\n');

/** The committed table of what intervals hold. */
export const coverageReport = (
  all: readonly TypeCoverage[],
  { tests, draws, seed }: { tests: number; draws: number; seed: number },
): string =>
  `# What the intervals hold

Made by \`npm run calibration\`: ${tests} simulated tests of each type and meter, 5 to 10 stages, ${draws} draws for each
interval, seed ${seed}. The answer that an interval is to hold is the method's own on the same readings without noise, on the
device of the test. Wanted: 93 to 97 % of the 95 % intervals and 77 to 83 % of the 80 % intervals; † marks what is outside.
Bias is the mean error in standard deviations of the draws; spread is that of the errors over that of the draws. The reasons
stand in \`src/physiology/calibration.ts\`, from where the sensitivity panel tells them.

${all.map(section).join('\n\n')}
`;

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { breathe, makeWorkbook, type TestWorkbook } from './workbook.ts';

/**
 * Random workbooks against a model that works everything out anew. Cell i may read cells with a lower number and
 * the three controls; it exports the pair of what it computed and the versions it saw, so that a mixture shows.
 */
interface CellPlan {
  reads: number[];
  controls: number[];
  /** Result taken modulo this: small numbers make for many unchanged results. */
  modulo: number;
  constant: number;
  waits: boolean;
  broken: boolean;
}

type Step = { edit: number; plan: CellPlan } | { control: number; value: number } | { pause: true };

const CELLS = 7;
const CONTROLS = 3;

const planOf = (index: number): fc.Arbitrary<CellPlan> =>
  fc.record({
    reads: index === 0 ? fc.constant([]) : fc.uniqueArray(fc.nat(index - 1), { maxLength: 3 }),
    controls: fc.uniqueArray(fc.nat(CONTROLS - 1), { maxLength: 2 }),
    modulo: fc.constantFrom(2, 3, 1000),
    constant: fc.nat(5),
    waits: fc.boolean(),
    broken: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
  });

const steps: fc.Arbitrary<Step[]> = fc.array(
  fc.oneof(
    fc.nat(CELLS - 1).chain((edit) => planOf(edit).map((plan) => ({ edit, plan }))),
    fc.record({ control: fc.nat(CONTROLS - 1), value: fc.nat(4) }),
    fc.constant({ pause: true } as const),
  ),
  { maxLength: 12 },
);

const CONTROL_CELL = [
  `import { slider } from '#toolkit';`,
  ...[0, 1, 2].map((i) => `export const s${i} = slider({ label: 's${i}', min: 0, max: 9, value: 1 });`),
].join('\n');

function textOf(index: number, plan: CellPlan): string {
  const imports = plan.reads.map((r) => `import { v${r} } from './c${r}.ts';`);
  const controls = plan.controls.map((c) => `import { s${c} } from './controls.ts';`);
  const terms = [
    plan.constant,
    ...plan.reads.map((r) => `v${r}`),
    ...plan.controls.map((c) => `s${c}.value`),
  ];
  return [
    ...imports,
    ...controls,
    plan.waits ? 'await null; await null;' : '',
    plan.broken ? `throw new Error('broken');` : '',
    `export const v${index} = (${terms.join(' + ')}) % ${plan.modulo};`,
    // All terms at one moment: the log of a glitch.
    `export default [${terms.join(', ')}];`,
  ].join('\n');
}

/** Terms and value of every cell; null for one that fails or waits. */
function model(plans: CellPlan[], controls: number[]): ({ terms: number[]; value: number } | null)[] {
  const results: ReturnType<typeof model> = [];
  for (const plan of plans) {
    const upstream = plan.reads.map((r) => results[r] ?? null);
    if (plan.broken || upstream.includes(null)) {
      results.push(null);
      continue;
    }
    const terms = [
      plan.constant,
      ...upstream.map((u) => u!.value),
      ...plan.controls.map((c) => controls[c]!),
    ];
    results.push({ terms, value: terms.reduce((a, b) => a + b) % plan.modulo });
  }
  return results;
}

function expectModel(workbook: TestWorkbook, plans: CellPlan[], controls: number[]): void {
  model(plans, controls).forEach((expected, i) => {
    const state = workbook.state(`c${i}`);
    if (expected)
      expect([state.name, state.phase, state.shown]).toEqual([`c${i}.ts`, 'done', expected.terms]);
    else expect(['failed', 'waiting']).toContain(state.phase);
  });
}

const open = (plans: CellPlan[]) =>
  makeWorkbook({
    controls: CONTROL_CELL,
    ...Object.fromEntries(plans.map((plan, i) => [`c${i}`, textOf(i, plan)])),
  });

const plansArbitrary = fc.tuple(...Array.from({ length: CELLS }, (_, i) => planOf(i)));

describe('random workbooks', () => {
  test('after any sequence of changes every cell is as if all had been worked out anew, and none was told a mixture', async () => {
    await fc.assert(
      fc.asyncProperty(plansArbitrary, steps, async (firstPlans, sequence) => {
        const plans: CellPlan[] = [...firstPlans];
        const controls = [1, 1, 1];
        const workbook = open(plans);
        // Every state that could ever be right, by cell: the model after each step.
        const right = plans.map(() => new Set<string>());
        const note = () => {
          for (const [i, result] of model(plans, controls).entries()) {
            if (result) right[i]!.add(JSON.stringify(result.terms));
          }
        };
        note();
        let last: Promise<void> = workbook.engine.run();
        for (const step of sequence) {
          if ('pause' in step) await breathe();
          else if ('edit' in step) {
            plans[step.edit] = step.plan;
            last = workbook.engine.edit(`c${step.edit}.ts`, textOf(step.edit, step.plan));
          } else {
            controls[step.control] = step.value;
            // The first run may not have made the control yet.
            await breathe();
            last = workbook.engine.setControl('controls.ts', `s${step.control}`, step.value);
          }
          note();
        }
        await last;
        await workbook.engine.run();
        expectModel(workbook, plans, controls);
        for (const { name, phase, shown } of workbook.told) {
          const index = Number(/^c(\d)\.ts$/.exec(name)?.[1] ?? -1);
          if (index >= 0 && phase === 'done') expect([...right[index]!]).toContain(JSON.stringify(shown));
        }
      }),
      { numRuns: 200, seed: 20261 },
    );
  }, 60_000);

  test('a change runs a cell at most once, and only when something it reads has changed', async () => {
    const change = fc.oneof(
      fc.nat(CELLS - 1).chain((edit) => planOf(edit).map((plan) => ({ edit, plan }))),
      fc.record({ control: fc.nat(CONTROLS - 1), value: fc.nat(4) }),
    );
    await fc.assert(
      fc.asyncProperty(plansArbitrary, fc.array(change, { maxLength: 6 }), async (firstPlans, changes) => {
        const plans: CellPlan[] = [...firstPlans];
        const controls = [1, 1, 1];
        const workbook = open(plans);
        await workbook.engine.run();
        workbook.ran();
        // What each cell read when it last ran; null for never.
        const seen = plans.map((plan) => inputsOf(plans, controls, plan));
        for (const step of changes) {
          const textBefore = plans.map((plan, i) => textOf(i, plan));
          if ('edit' in step) plans[step.edit] = step.plan;
          else controls[step.control] = step.value;
          if ('edit' in step) await workbook.engine.edit(`c${step.edit}.ts`, textOf(step.edit, step.plan));
          else await workbook.engine.setControl('controls.ts', `s${step.control}`, step.value);
          const needed = plans.flatMap((plan, i) => {
            const now = inputsOf(plans, controls, plan);
            if (textBefore[i] !== textOf(i, plan)) seen[i] = null;
            if (now === null || now === seen[i]) return [];
            seen[i] = now;
            return `c${i}`;
          });
          expect(workbook.ran()).toBe(needed.join(' '));
        }
      }),
      { numRuns: 200, seed: 20262 },
    );
  }, 60_000);
});

/** What a cell reads, as a text; null when it cannot run because it waits. A broken cell reads its controls never. */
function inputsOf(plans: CellPlan[], controls: number[], plan: CellPlan): string | null {
  const results = model(plans, controls);
  const upstream = plan.reads.map((r) => results[r]);
  if (upstream.includes(null)) return null;
  return JSON.stringify([
    upstream.map((u) => u!.value),
    plan.broken ? [] : plan.controls.map((c) => controls[c]),
  ]);
}

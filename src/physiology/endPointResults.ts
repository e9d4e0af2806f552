import { type Estimate, type EstimateOptions, estimateAll } from './estimate.ts';
import { methodById } from './methods/index.ts';
import { incompleteLast } from './readings.ts';
import type { LastStage, StepTest } from './stepTest.ts';

/** One method's three answers to a last stage that was not finished. */
export interface EndPointResult {
  method: string;
  /** By what is done with that stage. */
  results: Record<LastStage, Estimate>;
}

const POLICIES: readonly LastStage[] = ['credited', 'dropped', 'nominal'];

/**
 * For a test whose last stage was not finished: what each method that hangs on the end point says with that stage at
 * its credited intensity, without it, and at its nominal intensity. Empty when the test ended on a full stage.
 *
 * Source    credited intensity: Kuipers et al. 1985, Int J Sports Med 6:197–201; Hawley & Noakes 1992, Eur J Appl
 *           Physiol 65:79–83 (from memory); all three beside each other: our rule
 */
export function endPointResults(test: StepTest, options: EstimateOptions = {}): EndPointResult[] {
  if (incompleteLast(test) === null) return [];
  // Asked for by name, a method says why it has no answer without the last stage, instead of being left out.
  const methods = estimateAll(test, { ...options, lastStage: 'credited' })
    .map((estimate) => estimate.method)
    .filter((id) => methodById(id).maximal);
  const [credited, dropped, nominal] = POLICIES.map((lastStage) =>
    estimateAll(test, { ...options, lastStage, methods }),
  );
  return credited!.map((estimate) => {
    const same = (all: Estimate[]) => all.find((e) => e.method === estimate.method)!;
    return {
      method: estimate.method,
      results: { credited: estimate, dropped: same(dropped!), nominal: same(nominal!) },
    };
  });
}

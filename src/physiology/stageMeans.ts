import { completedShare, plannedMinutes } from './readings.ts';
import type { Stage, StepTest } from './stepTest.ts';

/** The stages that were kept up to their end: heart rate and oxygen uptake lag behind by half a minute and more. */
export function completedStages(test: StepTest): Stage[] {
  const planned = plannedMinutes(test);
  return test.stages.filter((stage) => completedShare(stage, planned) === 1);
}

/** Mean of a measurement over the stages of each intensity, ascending; stages without it are left out. */
export function stageMeans(
  stages: readonly Stage[],
  measured: (stage: Stage) => number | null,
): { x: number[]; y: number[] } {
  const sums = new Map<number, { sum: number; count: number }>();
  for (const stage of stages) {
    const value = measured(stage);
    if (value === null) continue;
    const { sum, count } = sums.get(stage.intensity) ?? { sum: 0, count: 0 };
    sums.set(stage.intensity, { sum: sum + value, count: count + 1 });
  }
  const x = [...sums.keys()].sort((a, b) => a - b);
  return { x, y: x.map((key) => sums.get(key)!.sum / sums.get(key)!.count) };
}

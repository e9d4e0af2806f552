import type { Axis } from '../base/units.ts';

/** Stages harder than this are beyond what anybody keeps up for minutes, W or km/h (our rule, generous). */
export const HARDEST_STAGE: Readonly<Record<Axis, number>> = { power: 800, speed: 30 };

/** Whether an intensity is more likely a slip of the pen than a stage. */
export const isImplausible = (intensity: number, axis: Axis): boolean => intensity > HARDEST_STAGE[axis];

import { type Estimator, NOT_COMPILED } from './estimator.ts';

/** An estimator that the compiled kernel does not know: it answers each draw where the rest of the program runs. */
export const notCompiled = (find: Estimator['find']): Estimator => ({
  kind: NOT_COMPILED,
  first: Number.NaN,
  second: Number.NaN,
  find,
});

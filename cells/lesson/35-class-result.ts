import { folded, prose, showClass } from '#hourline';
import { error } from './19-error.ts';
import { test } from './20-test.ts';
import { athletes, seed } from './30-class.ts';

export default [
  prose`
    Press *Begin*; it takes a few seconds. While it runs you
    can read on, or cancel.`,
  showClass(test, {
    athletes: athletes.value,
    seed: seed.value ?? 1,
    error,
  }),
  folded(
    'What to see in it',
    prose`
      The two columns of the table tell two things apart.
      What differs between athletes **without** errors of the
      meter belongs to the method: no better meter takes it
      away. What the meter adds stands in the second column.
      For methods that read where the curve is steep the
      meter adds little; for those that read where it is flat
      it adds most.`,
  ),
];

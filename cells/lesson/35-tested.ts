import { lessonAnswer, prose, showClass } from '#hourline';
import { error } from './19-error.ts';
import { test } from './20-test.ts';
import { athletes, seed } from './30-class.ts';

export default [
  prose`
    Press *Begin*; it takes a few seconds. You can read on
    meanwhile, or cancel. Then compare the columns of the
    table: what belongs to the method, and what to the
    meter?`,
  showClass(test, {
    athletes: athletes.value,
    seed: seed.value ?? 1,
    error,
  }),
  lessonAnswer('class'),
];

import { folded, prose, showOneReading } from '#hourline';
import { test } from './20-test.ts';
import { stages } from './60-reading.ts';

export default [
  showOneReading(test, stages),
  folded(
    'Answer',
    prose`
      It depends on which. A method that reads straight lines
      between neighbours moves only when one of the two
      readings beside its answer does. A method that lays a
      curve through all of them moves a little with each.
      Dmax hangs on the last reading, methods above a
      baseline on the lowest ones, and a first rise may jump
      by whole stages when a single low reading goes up.

      So before you believe a threshold, ask which readings
      it rests on, and look at those again.`,
  ),
];

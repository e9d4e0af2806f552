import { prose, showMethods } from '#hourline';
import { display, readings } from './25-readings.ts';
import { options, sampling } from './45-sampling.ts';

const study = { readings, display, options, sampling };

export default [
  prose`
    ## Methods that need another test
    Three more ask for a protocol of their own and so have
    nothing to say here. Each has a workbook of its own:
    *Lactate minimum test*, *Reverse test* and *Constant-load
    bouts*. The last is the yardstick of the second
    threshold.`,
  showMethods(
    study,
    'lactate-minimum',
    'reverse',
    'steady-state-bouts',
  ),
];

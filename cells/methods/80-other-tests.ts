import { prose, showMethods, withoutSwitch } from '#hourline';
import { display, readings } from './25-readings.ts';
import * as first from './40-first.ts';
import * as second from './41-second.ts';
import * as more from './42-second-more.ts';
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
  showMethods(study, ...withoutSwitch(first, second, more)),
];

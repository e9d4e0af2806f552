import {
  prose,
  showBootstrap,
  showNotInside,
} from '#hourline';
import { display, readings } from './25-readings.ts';
import { given, sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';

export default [
  prose`
    ### What is not in the intervals`,
  showNotInside(sampling, readings, {
    chosen: [lt1.value, lt2.value],
    display,
  }),
  showBootstrap(sampling, readings, { ...given, display }),
];

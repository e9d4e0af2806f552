import {
  prose,
  showBootstrap,
  showNotInside,
} from '#hourline';
import { display, readings } from './25-readings.ts';
import { given, sampling } from './65-sensitivity.ts';

export default [
  prose`
    ### What is not in the intervals`,
  showNotInside(sampling, readings, { display }),
  showBootstrap(sampling, readings, { ...given, display }),
];

import { showMethods } from '#hourline';
import { display, readings } from './25-readings.ts';
import { reading } from './40-curve.ts';
import { which } from './54-which.ts';
import { sampling } from './65-sensitivity.ts';

export default showMethods(
  { readings, options: reading, sampling, display },
  which.value,
);

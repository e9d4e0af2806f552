import { folded, showHeartRate } from '#hourline';
import { display, test } from './25-readings.ts';
import { first, second } from './72-chosen.ts';

export default folded(
  'Heart rate at these thresholds',
  showHeartRate(test, [first, second], { display }),
);

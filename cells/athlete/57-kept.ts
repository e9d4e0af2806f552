import { showKept } from '#hourline';
import { display } from './25-readings.ts';
import { kept, setting } from './56-keep.ts';
import { sampling } from './65-sensitivity.ts';

export default showKept(kept.value, sampling, {
  display,
  setting,
});

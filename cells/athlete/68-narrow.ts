import { prose, showNarrowing } from '#hourline';
import { display, readings } from './25-readings.ts';
import { given, sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';

export default [
  prose`
    ### What would narrow it
    A second sample at one stage, a stage more between two, or
    steps half as large, which doubles the test. An error that
    the whole test shares is narrowed by none of them: for
    that, calibrate.`,
  showNarrowing(sampling, readings, {
    ...given,
    chosen: [lt1.value, lt2.value],
    display,
  }),
];

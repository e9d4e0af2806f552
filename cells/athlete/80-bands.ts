import {
  bandTable,
  folded,
  intensityField,
  prose,
  showBands,
  trainingBands,
} from '#hourline';
import { display, heartRates } from './25-readings.ts';
import { sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';

const chosen = { lt1: lt1.value, lt2: lt2.value };
export const bands = trainingBands(sampling, {
  ...chosen,
  heartRates,
});
export const planned = intensityField(
  'Planned for threshold work',
  display,
);

export default [
  prose`
    ## Training bands
    Easy, threshold and hard. Hatched ranges are undecided: 10
    to 90 % of the draws put the threshold below, so the test
    cannot say on which side the athlete is. Plan outside
    them.`,
  showBands(bands, sampling, { ...chosen, display }),
  bands.bands && bandTable(bands.bands, { display }),
  bands.five &&
    folded(
      'Five bands instead',
      prose`Anchored on the two estimates by our rule: I up to
        88 % of the first threshold, II up to the threshold,
        III up to 97 % of the second, IV up to 103 % of it, V
        above. They are not guarded against its error.`,
      bandTable(bands.five, {
        display,
        caption: 'Five bands',
      }),
    ),
  planned,
];

import {
  bandTable,
  folded,
  numberField,
  prose,
  showBands,
  showHeartRate,
  trainingBands,
} from '#hourline';
import { display, heartRates, test } from './25-readings.ts';
import { sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';
import { first, second } from './72-chosen.ts';

const chosen = { lt1: lt1.value, lt2: lt2.value };
export const bands = trainingBands(sampling, {
  ...chosen,
  heartRates,
});
export const planned = numberField({
  label: 'Planned for threshold work',
  unit: display.unit,
  value: null,
});

export default [
  prose`
    ## Training bands
    Easy, threshold and hard. Hatched ranges are undecided: in
    them the test cannot say on which side of the threshold
    the athlete is, so plan outside them.`,
  showBands(bands, sampling, { ...chosen, display }),
  bands.bands && bandTable(bands.bands, { display }),
  bands.five &&
    folded(
      'Five bands instead',
      bandTable(bands.five, {
        display,
        caption: 'Five bands',
      }),
    ),
  folded(
    'Heart rate',
    showHeartRate(test, [first, second], { display }),
  ),
  planned,
];

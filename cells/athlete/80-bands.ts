import {
  bandTable,
  folded,
  numberField,
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
  planned,
];

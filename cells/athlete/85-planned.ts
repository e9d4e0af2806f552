import {
  bandProbabilities,
  intensityWords,
  prose,
  sayPlanned,
} from '#hourline';
import { display } from './25-readings.ts';
import { sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';
import { second } from './72-chosen.ts';
import { planned } from './80-bands.ts';

// With nothing planned, look a little above the second
// threshold: that is where sessions usually go wrong.
const isExample = planned.value === null;
const at =
  planned.value ?? 1.03 * (second?.intensity ?? display.hi);
const chances = bandProbabilities(
  sampling,
  { lt1: lt1.value, lt2: lt2.value },
  at,
);
const where = intensityWords(at, display);
const nothing = isExample
  ? null
  : prose`Of **${where}** this test says nothing: it lies
    outside the tested range, a chosen method has no answer,
    or the two lie in reverse order.`;

export default chances
  ? sayPlanned(chances, where, isExample)
  : nothing;

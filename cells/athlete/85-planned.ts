import {
  bandProbabilities,
  intensityWords,
  notice,
  percentWords,
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
const at =
  planned.value ?? 1.03 * (second?.intensity ?? display.hi);
const chances = bandProbabilities(
  sampling,
  { lt1: lt1.value, lt2: lt2.value },
  at,
);
const where = intensityWords(at, display);
const verdict = chances && sayPlanned(chances);
const nothing =
  planned.value === null
    ? null
    : prose`Of **${where}** this test says nothing: it lies
      outside the tested range, or a chosen method has no
      answer.`;

export default chances && verdict
  ? [
      prose`
    At **${where}**, by the two chosen methods and the errors
    set above alone, the chances are: below the first
    threshold ${percentWords(chances.below)}, between the two
    ${percentWords(chances.between)}, above the second
    ${percentWords(chances.above)}.`,
      notice(
        verdict.tone,
        `${where}: ${verdict.title}`,
        verdict.body,
      ),
    ]
  : nothing;

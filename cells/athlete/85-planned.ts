import { bandProbabilities, intensityWords, notice, percentWords, prose } from '#hourline';
import { display } from './25-readings.ts';
import { sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';
import { second } from './72-chosen.ts';
import { planned } from './80-bands.ts';

// With nothing planned, look a little above the second threshold: that is where sessions usually go wrong.
const at = planned.value ?? 1.03 * (second?.intensity ?? display.hi);
const chances = bandProbabilities(sampling, { lt1: lt1.value, lt2: lt2.value }, at);
const above = chances?.above ?? 0;
const verdict =
  above > 0.5 ? 'is more likely above the second threshold than not' : 'passes as threshold work';

export default chances && [
  prose`At **${intensityWords(at, display)}** the chances are: below the first threshold ${percentWords(chances.below)},
    between the two ${percentWords(chances.between)}, above the second ${percentWords(above)}.`,
  notice(
    above > 0.5 ? 'caution' : 'note',
    `${intensityWords(at, display)} ${verdict}`,
    `That it still feels manageable does not decide it: just above the second threshold the first minutes feel like
    just below, while lactate keeps climbing. Take lactate or stay lower when in doubt.`,
  ),
];

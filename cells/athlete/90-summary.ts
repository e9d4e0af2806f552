import {
  intensityWords,
  prose,
  sayBands,
  sayThreshold,
} from '#hourline';
import { code } from './10-athlete.ts';
import { display } from './25-readings.ts';
import { first, second } from './72-chosen.ts';
import { bands } from './80-bands.ts';

// Repeated tests of one cyclist differ by 3.5 %, all included
// (Pallarés 2016, PLoS ONE 11:e0163389, abstract).
const change =
  1.96 *
  Math.SQRT2 *
  0.035 *
  (second ?? first ?? { intensity: display.hi }).intensity;

export default prose`
  ## For the athlete
  ${code.value && `**${code.value}:** `}What your test says.

  - **First threshold.** ${sayThreshold(first, display)}
  - **Second threshold.** ${sayThreshold(second, display)}

  ${sayBands(bands, display)}

  A threshold session that still feels manageable can already
  be too hard: what counts is to finish it with some left,
  breathing under control, heart rate not drifting off. In
  doubt go lower; it costs little.

  Test again on the same protocol. Below a change of about
  ${intensityWords(change, display)} nobody can say that you
  have changed.`;

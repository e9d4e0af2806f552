import {
  inShort,
  prose,
  sayBands,
  sayChange,
  sayThreshold,
} from '#hourline';
import { code } from './10-athlete.ts';
import { display } from './25-readings.ts';
import { first, second } from './72-chosen.ts';
import { bands } from './80-bands.ts';

export default inShort(prose`
  ## For the athlete
  ${code.value && `**${code.value}:** `}What your test says.

  - **First threshold.** ${sayThreshold(first, display)}
  - **Second threshold.** ${sayThreshold(second, display)}

  ${sayBands(bands, display)}

  A threshold session that still feels manageable can already
  be too hard: what counts is to finish it with some left,
  breathing under control, heart rate not drifting off. In
  doubt go lower; it costs little.

  Test again on the same protocol.
  ${sayChange([first, second], display)}`);

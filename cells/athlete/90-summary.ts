import {
  inShort,
  prose,
  sayBands,
  sayChange,
  sayInterval,
  sayOrder,
  sayThreshold,
  whoseData,
} from '#hourline';
import { code } from './10-athlete.ts';
import { stages } from './20-stages.ts';
import { display, test } from './25-readings.ts';
import { first, second } from './72-chosen.ts';
import { bands } from './80-bands.ts';

const invented =
  whoseData(stages) === 'invented'
    ? '**The athlete and all readings are invented.**'
    : '';

export default inShort(prose`
  ## For the athlete
  ${code.value && `**${code.value}:** `}What your test says.
  ${invented}

  - **First threshold**, below which lactate stays low and
    hours are possible. ${sayThreshold(first, display)}
  - **Second threshold**, above which lactate keeps rising.
    ${sayThreshold(second, display)}

  ${sayInterval([first, second])}

  ${sayOrder(first, second)}

  ${sayBands(bands, display)}

  A threshold session that still feels manageable can already
  be too hard: what counts is to finish it with some left,
  breathing under control, heart rate not drifting off. In
  doubt go lower; it costs little.

  Test again on the same protocol.
  ${sayChange([first, second], display, test.sport)}`);

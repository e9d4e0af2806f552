import { showFuel } from '#hourline';
import { display, test } from './25-readings.ts';
import { first, second } from './72-chosen.ts';
import { conditions } from './152-effects.ts';
import { at, minutes } from './155-planned-session.ts';

export default showFuel({
  test,
  display,
  first,
  second,
  intensity: at.value,
  minutes: minutes.value,
  conditions,
});

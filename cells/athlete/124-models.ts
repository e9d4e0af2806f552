import {
  effortsIn,
  folded,
  formsTable,
  waysFromEfforts,
  whyLeftOut,
} from '#hourline';
import { stages } from './20-stages.ts';
import { display, test } from './25-readings.ts';
import { seed } from './63-draws.ts';
import { efforts } from './120-efforts.ts';

export const best = effortsIn(efforts, stages, test);
export const ways = waysFromEfforts(best, {
  seed: seed.value ?? 1,
});

export default [
  whyLeftOut('The best efforts', efforts, stages),
  best &&
    folded(
      'Critical intensity, by each published form',
      formsTable(best, { display }),
    ),
];

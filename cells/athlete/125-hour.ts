import {
  claimIn,
  effortFitTable,
  effortsIn,
  folded,
  formsTable,
  holdForAnHour,
  hourSources,
  prose,
  sayBreak,
  sayHour,
  showHour,
  sinceTest,
  thresholdForHour,
  whyLeftOut,
} from '#hourline';
import { stages } from './20-stages.ts';
import { display, test } from './25-readings.ts';
import { seed } from './63-draws.ts';
import { sampling } from './65-sensitivity.ts';
import { lt2 } from './70-choice.ts';
import { efforts } from './120-efforts.ts';
import * as said from './122-claim.ts';
import * as since from './123-since.ts';

const claim = claimIn(said.claim, stages);
const best = effortsIn(efforts, stages, test);
export const hour = holdForAnHour({
  efforts: best,
  threshold: thresholdForHour(sampling, lt2.value),
  level: said.level.value,
  claim,
  since: sinceTest(since),
  allowance: since.allowance.value / 100,
  seed: seed.value ?? 1,
});
const how = { display, efforts: best, claim };

export default [
  sayHour(hour, claim, display),
  whyLeftOut('The best efforts', efforts, stages),
  sayBreak(hour, display),
  ...hour.disagreements,
  showHour(hour, how),
  folded(
    'What the models find, and where they come from',
    effortFitTable(hour, how),
    formsTable(best, how),
    prose`${hourSources(hour)}`,
  ),
];

import {
  claimIn,
  effortFitTable,
  folded,
  holdForAnHour,
  hourSources,
  prose,
  sayBreak,
  sayHour,
  showHour,
  sinceTest,
  thresholdForHour,
} from '#hourline';
import { stages } from './20-stages.ts';
import { display } from './25-readings.ts';
import { seed } from './63-draws.ts';
import { sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';
import { order } from './72-chosen.ts';
import * as said from './122-claim.ts';
import * as since from './123-since.ts';
import { best, ways } from './124-models.ts';

const claim = claimIn(said.claim, stages);
export const hour = holdForAnHour({
  fromEfforts: ways,
  threshold: thresholdForHour(sampling, lt1.value, lt2.value),
  level: said.level.value,
  claim,
  since: sinceTest(since),
  allowance: since.allowance.value / 100,
  seed: seed.value ?? 1,
});
const how = { display, efforts: best, claim };

export default [
  sayHour(hour, claim, display),
  sayBreak(hour, display),
  order === ''
    ? null
    : `Told without the second threshold. ${order}`,
  ...hour.disagreements,
  showHour(hour, how),
  folded(
    'What the models find, and where they come from',
    effortFitTable(hour, how),
    prose`${hourSources(hour)}`,
  ),
];

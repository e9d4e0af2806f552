import {
  folded,
  sameChoice,
  stageGrid,
  whenField,
} from '#hourline';
import { sport } from './10-athlete.ts';
import { earlier as before } from './140-earlier.ts';

export const when = whenField('');
export const earlier = stageGrid({
  label: 'Stages of a still earlier test',
  sport: sport.value,
  offer: { from: 'the earlier test', grid: before },
  csv: `stage,minutes,power (W),speed (km/h),HR,lactate
rest
1
2
3
4
5
6
7
8
`,
});
export const meter = sameChoice('lactate meter', 'unknown');
export const site = sameChoice('finger or ear', 'unknown');
export const machine = sameChoice('machine', 'unknown');
export const state = sameChoice(
  'food, rest, health',
  'unknown',
);

export default folded(
  'A still earlier test, if there was one',
  [when, earlier, [meter, site, machine, state]],
);

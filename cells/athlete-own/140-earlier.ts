import {
  onlyLive,
  prose,
  sameChoice,
  stageGrid,
  whenField,
} from '#hourline';
import { sport } from './10-athlete.ts';
import { stages } from './20-stages.ts';

export const when = whenField('');
export const earlier = stageGrid({
  label: 'Stages of the earlier test',
  sport: sport.value,
  offer: { from: 'the test at the top', grid: stages },
  csv: `stage,minutes,power (W),speed (km/h),HR,lactate,RPE
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

export default [
  prose`
    ## Has the athlete changed?
    An earlier test of the same athlete; the latest is the one
    at the top. What differed between them cannot be told from
    a change of the athlete.`,
  onlyLive(prose`
    When your athlete is tested again, take over the test at
    the top here first; then put the new one there.`),
  when,
  earlier,
  [meter, site, machine, state],
];

import {
  onlyLive,
  prose,
  sameChoice,
  stageGrid,
  whenField,
} from '#hourline';
import { sport } from './10-athlete.ts';
import { stages } from './20-stages.ts';

export const when = whenField('3 months earlier');
export const earlier = stageGrid({
  label: 'Stages of the earlier test',
  sport: sport.value,
  offer: { from: 'the test at the top', grid: stages },
  csv: `# Invented data: athlete R-01, a test three months earlier with shorter stages; no person was measured
stage,duration (min),speed (km/h),heart rate (bpm),lactate (mmol/L),RPE (6-20)
rest,,0,70,1.2,
1,3:00,6,116,1.2,7
2,3:00,7,126,1.1,9
3,3:00,8,137,1.3,10
4,3:00,9,147,1.6,12
5,3:00,10,157,2.2,14
6,3:00,11,168,3.5,16
7,3:00,12,178,5.9,19
`,
});
export const meter = sameChoice('lactate meter', 'yes');
export const site = sameChoice('finger or ear', 'yes');
export const machine = sameChoice('machine', 'yes');
export const state = sameChoice(
  'food, rest, health',
  'unknown',
);

export default [
  prose`
    ## Has the athlete changed?
    An earlier test of the same athlete; the latest is the one
    at the top. What differed between them cannot be told from
    a change of the athlete.
    The table starts out with an **invented** one.`,
  onlyLive(prose`
    When your athlete is tested again, take over the test at
    the top here first; then put the new one there.`),
  when,
  earlier,
  [meter, site, machine, state],
];

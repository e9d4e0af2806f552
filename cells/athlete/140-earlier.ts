import {
  onlyLive,
  prose,
  sameChoice,
  stageGrid,
  whenField,
} from '#hourline';
import { sport } from './10-athlete.ts';
import { stages } from './20-stages.ts';

export const when = whenField('10 weeks earlier');
export const earlier = stageGrid({
  label: 'Stages of the earlier test',
  sport: sport.value,
  offer: { from: 'the test at the top', grid: stages },
  csv: `# Invented data: athlete C-01, the same test ten weeks earlier; no person was measured
stage,duration (min),power (W),heart rate (bpm),lactate (mmol/L),RPE (6-20)
rest,,0,66,1.1,
1,4:00,120,116,1.1,8
2,4:00,150,127,1.0,10
3,4:00,180,137,1.1,11
4,4:00,210,148,1.4,13
5,4:00,240,158,1.9,14
6,4:00,270,168,2.9,16
7,3:40,300,178,5.0,19
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

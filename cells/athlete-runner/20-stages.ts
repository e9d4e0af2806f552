import { prose, stageGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const stages = stageGrid({
  sport: sport.value,
  csv: `# Invented data: athlete R-01, recreational half-marathon runner, 66 kg; no person was measured
stage,duration (min),speed (km/h),heart rate (bpm),lactate (mmol/L),RPE (6-20)
rest,,0,68,1.3,
1,4:00,6,112,1.1,7
2,4:00,7,123,1.0,8
3,4:00,8,133,1.3,10
4,4:00,9,144,2.4,11
5,4:00,10,154,1.8,13
6,4:00,11,165,2.8,15
7,4:00,12,175,4.7,17
8,2:20,13,181,7.5,19
`,
});

export default [
  prose`
    ## The stages
    One row a stage. The table starts out with **invented**
    readings: the one at 9 km/h is too high, and the last
    stage was not finished. Your entries take their place in
    the table; the text in the code is only its start, to
    which *Start over* goes back.`,
  stages,
];

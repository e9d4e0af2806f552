import { prose, stageGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const stages = stageGrid({
  sport: sport.value,
  csv: `# Invented data: athlete C-01, trained cyclist, 70 kg; no person was measured
stage,duration (min),power (W),heart rate (bpm),lactate (mmol/L),RPE (6-20)
rest,,0,63,1.2,
1,4:00,120,111,1.4,8
2,4:00,150,122,0.9,9
3,4:00,180,131,1.1,11
4,4:00,210,143,1.2,12
5,4:00,240,152,1.7,13
6,4:00,270,163,2.2,15
7,4:00,300,173,4.1,17
8,2:30,330,179,7.2,19
`,
});

export default [
  prose`
    ## The stages
    One row a stage. The table starts out with **invented**
    readings: the first is too high, and the last stage was
    not finished. Your entries take their place in the table;
    the text in the code is only its start, to which
    *Start over* goes back.`,
  stages,
];

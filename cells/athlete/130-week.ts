import { prose, term, trainingGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const week = trainingGrid({
  label: 'A session or a week',
  sport: sport.value,
  csv: `# Invented data: athlete C-01, one week of training; no person was measured
session,time (min),power (W),heart rate (bpm),goal
Mon,90,150,118,easy
Tue,20,140,114,threshold
Tue,32,290,170,threshold
Tue,18,110,128,threshold
Wed,60,145,116,easy
Thu,120,165,124,easy
Fri,25,150,118,hard
Fri,18,325,176,hard
Fri,27,120,130,hard
Sat,180,170,127,easy
Sun,45,130,112,easy
`,
});

export default [
  prose`
    ## How was the training spread?
    A row for each piece of a session or a week; or drop a
    recording with a column of elapsed time. The two
    thresholds sort it into ${term('zones')}. The table starts
    out with **invented** rows.`,
  week,
];

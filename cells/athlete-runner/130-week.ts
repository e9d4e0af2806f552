import { prose, term, trainingGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const week = trainingGrid({
  label: 'A session or a week',
  sport: sport.value,
  csv: `# Invented data: athlete R-01, one week of training; no person was measured
session,time (min),speed (km/h),heart rate (bpm),goal
Tue,45,7.6,131,easy
Wed,15,7.5,129,threshold
Wed,30,10.3,158,threshold
Wed,15,7.2,132,threshold
Fri,15,7.5,129,hard
Fri,15,12.2,172,hard
Fri,20,7,134,hard
Sun,90,7.7,134,easy
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

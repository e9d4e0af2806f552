import { prose, term, trainingGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const week = trainingGrid({
  label: 'A session or a week',
  sport: sport.value,
  csv: `session,time (min),power (W),speed (km/h),HR,goal
1
2
3
4
`,
});

export default [
  prose`
    ## How was the training spread?
    A row for each piece of a session or a week; or drop a
    recording with a column of elapsed time. The two
    thresholds sort it into ${term('zones')}.`,
  week,
];

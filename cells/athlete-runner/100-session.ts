import { prose, sessionGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const session = sessionGrid({
  sport: sport.value,
  csv: `# Invented data: athlete R-01, a threshold session that went well; no person was measured
rep,speed (km/h),minute,lactate (mmol/L),HR,RPE (6-20),signs
1,11.1,8:00,3.1,163,13,
2,11.1,8:00,3.5,165,13,
3,11.1,8:00,3.3,166,14,
4,11.1,8:00,3.4,167,14,
`,
});

export default [
  prose`
    ## The last session
    Intervals near the second threshold often go wrong the
    same way: above it, and still manageable. Enter a session,
    a row for each rep: minute and lactate of the sample,
    heart rate, rating, and signs such as nausea or tingling.
    The table starts out with **invented** reps:
    a session that went well.`,
  session,
];

import { prose, sessionGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const session = sessionGrid({
  sport: sport.value,
  csv: `rep,power (W),speed (km/h),minute,lactate,HR,RPE,signs
1
2
3
4
`,
});

export default [
  prose`
    ## The last session
    Intervals near the second threshold often go wrong the
    same way: above it, and still manageable. Enter a session,
    a row for each rep: minute and lactate of the sample,
    heart rate, rating, and signs such as nausea or
    tingling.`,
  session,
];

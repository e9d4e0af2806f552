import { prose, sessionGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const session = sessionGrid({
  sport: sport.value,
  csv: `# Invented data: athlete C-01, a threshold session that went wrong; no person was measured
rep,power (W),minute,lactate (mmol/L),HR,RPE (6-20),signs
1,295,8:00,5.3,168,14,
2,295,8:00,6.3,171,14,
3,295,8:00,6.0,173,15,
4,295,8:00,6.6,174,15,
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
    an overcooked session.`,
  session,
];

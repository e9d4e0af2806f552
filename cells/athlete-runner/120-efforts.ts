import { effortGrid, prose, term } from '#hourline';
import { sport } from './10-athlete.ts';

export const efforts = effortGrid({
  sport: sport.value,
  csv: `# Invented data: athlete R-01, races and time trials of the last months; no person was measured
distance (m),time,kind
1500,6:15,time trial
3000,13:30,time trial
5000,23:40,time trial
10000,50:00,race
`,
});

export default [
  prose`
    ## Could it be held for an hour?
    Best efforts of the last three months, rested and all out,
    from a few minutes up to 40. Either all as
    ${term('trial', 'time trials')}, or all at set intensity
    to exhaustion. The table starts out with **invented**
    ones.`,
  efforts,
];

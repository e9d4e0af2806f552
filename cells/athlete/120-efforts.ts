import { effortGrid, prose, term } from '#hourline';
import { sport } from './10-athlete.ts';

export const efforts = effortGrid({
  sport: sport.value,
  csv: `# Invented data: athlete C-01, best efforts of the last months as time trials; no person was measured
time (min),power (W),kind
3:00,384,time trial
6:00,346,time trial
12:00,322,time trial
20:00,310,time trial
40:00,291,time trial
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

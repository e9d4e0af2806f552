import { effortGrid, prose, term } from '#hourline';
import { sport } from './10-athlete.ts';

export const efforts = effortGrid({
  sport: sport.value,
  csv: `no,time,power (W),distance (m),kind
1
2
3
4
`,
});

export default [
  prose`
    ## Could it be held for an hour?
    Best efforts of the last three months, rested and all out,
    from a few minutes up to 40. Either all as
    ${term('trial', 'time trials')}, or all at set intensity
    to exhaustion.`,
  efforts,
];

import { boutGrid, prose } from '#hourline';
import { sport } from './10-athlete.ts';

export const bouts = boutGrid({
  sport: sport.value,
  csv: `# Invented data: athlete C-02, constant-load bouts, 72 kg; no person was measured
power (W),minute,lactate (mmol/L),completed
255,10,2.3,yes
255,20,2.4,yes
255,30,2.3,yes
270,10,3.1,yes
270,20,3.2,yes
270,30,3.5,yes
285,10,3.9,yes
285,20,4.3,yes
285,30,4.7,yes
300,10,5.1,yes
300,20,6.2,yes
300,30,7.4,yes
`,
});

export default [
  prose`
    These readings are **invented**: four bouts on four
    days.`,
  bouts,
];

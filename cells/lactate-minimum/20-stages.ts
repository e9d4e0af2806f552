import { prose, stageGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const stages = stageGrid({
  sport: sport.value,
  protocol: 'lactate-minimum',
  csv: `# Invented data: athlete C-02, lactate minimum test, 72 kg; no person was measured
stage,duration (min),power (W),heart rate (bpm),lactate (mmol/L)
recovery 8 min,,0,118,10.4
1,4:00,180,139,8.1
2,4:00,210,146,6.3
3,4:00,240,154,5.0
4,4:00,270,163,4.3
5,4:00,300,172,4.6
6,4:00,330,180,6.1
7,4:00,360,187,9.0
`,
});

export default [
  prose`
    These readings are **invented**. The row marked recovery
    holds the lactate after the rest.`,
  stages,
];

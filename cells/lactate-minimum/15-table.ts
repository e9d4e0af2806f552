import { prose } from '#hourline';

export const protocol = 'lactate-minimum';
export const csv = `# Invented data: athlete C-02, lactate minimum test, 72 kg; no person was measured
stage,duration (min),power (W),heart rate (bpm),lactate (mmol/L)
recovery 8 min,,0,118,10.4
1,4:00,180,139,8.1
2,4:00,210,146,6.3
3,4:00,240,154,5.0
4,4:00,270,163,4.3
5,4:00,300,172,4.6
6,4:00,330,180,6.1
7,4:00,360,187,9.0
`;

export default prose`
    The table starts out with **invented** readings. The row
    marked recovery holds the lactate after the rest.`;

import { prose } from '#hourline';

export const protocol = 'reverse';
export const csv = `# Invented data: athlete C-02, reverse test, 72 kg; no person was measured
stage,duration (min),power (W),heart rate (bpm),lactate (mmol/L)
1,4:00,340,178,5.2
2,4:00,325,180,6.4
3,4:00,310,180,7.1
4,4:00,295,179,7.3
5,4:00,280,176,6.9
6,4:00,265,172,6.0
7,4:00,250,167,5.0
`;

export default prose`
    The table starts out with **invented** readings, in the
    order in which the stages were done.`;

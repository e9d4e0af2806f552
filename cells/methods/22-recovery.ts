import { prose, recoveryGrid } from '#hourline';

export const recovery = recoveryGrid({
  csv: `# Invented data: athlete C-01 after the step test; no person was measured
minute,lactate (mmol/L),mode
1,7.9,passive
3,8.3,passive
5,7.8,passive
7,7.1,passive
10,6.0,passive
`,
});

export default [
  prose`
    Samples after the end, **invented** too. One method needs
    them; clear the table to see what it says without.`,
  recovery,
];

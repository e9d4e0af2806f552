import { onlyLive, prose, stageGrid } from '#hourline';
import { sport } from './10-athlete.ts';

export const stages = stageGrid({
  sport: sport.value,
  csv: `stage,minutes,power (W),speed (km/h),HR,lactate,RPE
rest
1
2
3
4
5
6
7
8
`,
});

export default [
  prose`## The stages`,
  onlyLive(prose`
    Paste a table from a spreadsheet with its headings, drop a
    CSV file, or type. One row a stage: power or speed, and
    the lactate at its end; duration, heart rate and RPE if
    you have them. A sample before the test goes into the row
    marked rest. Four stages are the least; seven or more
    serve every method.`),
  stages,
];

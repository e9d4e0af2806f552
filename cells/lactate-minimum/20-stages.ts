import { stageGrid } from '#hourline';
import { sport } from './10-athlete.ts';
import { csv, protocol } from './15-table.ts';

export const stages = stageGrid({
  sport: sport.value,
  protocol,
  csv,
});

export default stages;

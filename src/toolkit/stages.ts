import type { Sport } from '../base/units.ts';
import { checkStepTest, readStageTable } from '../data-in/stages.ts';
import { type Grid, grid } from '../view/controls.ts';

/** Headings that a table of stages understands, as offered for a new column. */
const SUGGESTIONS: Record<Sport, string[]> = {
  cycling: ['power (W)'],
  running: ['speed (km/h)', 'pace (min/km)'],
  rowing: ['power (W)', 'split (/500 m)'],
};
const COMMON = ['stage', 'duration (min)', 'heart rate (bpm)', 'lactate (mmol/L)', 'RPE (6-20)'];

const HELP = 'Type, paste from a spreadsheet, or drop a CSV or TSV file. A row marked rest is kept apart.';

export interface StageGridSpec {
  label?: string;
  help?: string;
  /** The table to begin with, as the text of a file. */
  csv: string;
  sport?: Sport;
}

/** An editable table of stages that also takes a pasted, dropped or picked CSV or TSV file. */
export function stageGrid({ label = 'Stages', help = HELP, csv, sport }: StageGridSpec): Grid {
  const read = (text: string, fileName?: string) => {
    const { headings, rows } = readStageTable(text, fileName);
    return { headings, rows };
  };
  return grid({
    label,
    help,
    value: read(csv),
    read,
    check: (value) => checkStepTest(value, sport === undefined ? {} : { sport }),
    suggestions: [...COMMON, ...SUGGESTIONS[sport ?? 'cycling']],
  });
}

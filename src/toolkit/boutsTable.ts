import { formatChange } from '../base/format.ts';
import type { ErrorModel } from '../physiology/errorModel.ts';
import { type BoutVerdict, boutVerdicts, STEADY_RISE } from '../physiology/steadyBouts.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type TableView, table } from '../view/view.ts';
import { type Display, intensityWords, percentWords } from './display.ts';

/** What each bout at constant intensity says: its rise, whether it was steady, and how sure that is. */
export const boutsTable = (
  readings: Readings,
  { display, error }: { display: Display; error: ErrorModel },
): TableView =>
  table({
    caption: 'Bouts at constant intensity',
    columns: [
      { key: 'at', heading: 'Bout', align: 'left' },
      { key: 'lactate', heading: 'Mean lactate', unit: 'mmol/L', align: 'right' },
      { key: 'rise', heading: 'Rise', unit: 'mmol/L', align: 'right' },
      { key: 'line', heading: 'By a line through all', unit: 'mmol/L', align: 'right' },
      { key: 'chance', heading: 'Chance of steady', align: 'right' },
      { key: 'verdict', heading: 'Verdict' },
    ],
    rows: boutVerdicts(readings, error).map((verdict) => ({
      at: intensityWords(verdict.intensity, display),
      lactate: verdict.lactate?.toFixed(1) ?? '–',
      rise: verdict.rise === null ? '–' : formatChange(verdict.rise, 1),
      line: verdict.regressionRise === null ? '–' : formatChange(verdict.regressionRise, 1),
      chance: verdict.steadyChance === null ? '–' : percentWords(verdict.steadyChance),
      verdict: verdictWords(verdict),
    })),
    note:
      `All from minute 10 to minute 30. Steady: a rise of ${STEADY_RISE.toFixed(1)} mmol/L or less between the two ` +
      'samples; the line through all of them is for comparison.',
  });

function verdictWords({ stopped, rise, steady }: BoutVerdict): string {
  if (stopped) return 'given up: not steady';
  if (rise === null) return 'a sample at minute 10 or 30 is missing';
  return steady ? 'steady' : 'not steady';
}

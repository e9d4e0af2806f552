import { formatNumber, withUnit } from '../base/format.ts';
import { zonesChart } from '../charts/zonesChart.ts';
import type { Spread } from '../numerics/quantiles.ts';
import {
  POLARIZED_ABOVE,
  patternOf,
  polarizationIndex,
  type TrainingPattern,
  type ZoneShares,
} from '../physiology/training/polarization.ts';
import { sharesByGoal, type TimeInZone, type TrainingPiece } from '../physiology/training/timeInZone.ts';
import {
  type ChartView,
  type FiguresView,
  figures,
  type NoticeView,
  notice,
  type Showable,
  type TableView,
  table,
} from '../view/view.ts';
import { percentWords } from './display.ts';
import { timeWords } from './sayHour.ts';

const PATTERN_WORDS: Record<TrainingPattern, string> = {
  polarized: 'polarized',
  pyramidal: 'pyramidal',
  threshold: 'mostly threshold work',
  none: 'no usual pattern',
};
/** Share of draws from which a pattern is called likely, and minutes too hard from which that is said (our rule). */
const LIKELY = 0.8;
const REMARKABLE = 5;

/** Time in zone as a verdict, its figures and a picture; a word when nothing can be sorted. */
export function showZones(zones: TimeInZone | null, pieces: readonly TrainingPiece[]): Showable {
  if (zones === null)
    return notice(
      'note',
      'Nothing to sort',
      'No piece has an intensity, or a heart rate beside one in the test.',
    );
  return [sayZones(zones), zonesPicture(zones), patternFigures(zones, sharesByGoal(pieces))];
}

/** What the training was, in one notice: where it was harder than meant, else its pattern. */
function sayZones(zones: TimeInZone): NoticeView {
  const { harderThanMeant: harder } = zones;
  if (harder === null || harder.median < REMARKABLE)
    return notice('note', `By time in zone: ${patternWords(zones)}`, shareWords(zones));
  return notice(
    'caution',
    `${timeWords(60 * harder.median)} were harder than meant`,
    `So much lay above the second threshold in sessions not meant to be hard (95 % range ${formatNumber(harder.low, 0)} to ${timeWords(60 * harder.high)}).`,
  );
}

function likeliest({ patterns }: TimeInZone): [TrainingPattern, number] {
  const all = Object.entries(patterns) as [TrainingPattern, number][];
  return all.toSorted(([, a], [, b]) => b - a)[0]!;
}

function patternWords(zones: TimeInZone): string {
  const [pattern, share] = likeliest(zones);
  return `${share >= LIKELY ? '' : 'perhaps '}${PATTERN_WORDS[pattern]}`;
}

const shareWords = (zones: TimeInZone): string => `So say ${percentWords(likeliest(zones)[1])} of the draws.`;

/** Pattern and index with their uncertainty, by time and by the goal of sessions: the two ways count differently. */
function patternFigures(zones: TimeInZone, byGoal: ZoneShares | null): FiguresView {
  const { index } = zones;
  return figures(
    { label: 'Pattern by time in zone', value: patternWords(zones), note: shareWords(zones) },
    index === null
      ? { label: 'Polarization index', value: '–', note: 'not defined: more hard than easy training' }
      : {
          label: 'Polarization index',
          value: formatNumber(index.median, 2),
          range: `95 % range ${formatNumber(index.low, 2)} to ${formatNumber(index.high, 2)}`,
          note: `above ${formatNumber(POLARIZED_ABOVE, 0)} is called polarized`,
        },
    ...(byGoal === null
      ? []
      : [{ label: 'Pattern by the goal of sessions', value: PATTERN_WORDS[patternOf(byGoal)] }]),
  );
}

function zonesPicture(zones: TimeInZone): ChartView {
  const bars = (['easy', 'threshold', 'hard'] as const).map((zone) => {
    const { median, low, high } = zones[zone];
    return { ...ZONES[zone], short: zone, share: median, low, high, label: rangedWords(zones[zone]) };
  });
  return zonesChart({
    bars,
    title: 'Time in zone',
    summary:
      `${timeWords(60 * zones.minutes)} sorted by the two thresholds: ${bars.map((bar) => `${bar.short} ${bar.label}`).join(', ')}. ` +
      'Bars are medians; lines are 95 % ranges from the error of the thresholds.',
    data: zonesTable(zones),
  });
}

const ZONES = {
  easy: { name: 'Easy, below LT1', tone: 'below' },
  threshold: { name: 'Between the thresholds', tone: 'between' },
  hard: { name: 'Hard, above LT2', tone: 'above' },
} as const;

function rangedWords({ median, low, high }: Spread): string {
  const [from, to] = [low, high].map((share) => formatNumber(100 * share, 0));
  return from === to ? percentWords(median) : `${percentWords(median)} (${from}–${withUnit(to!, '%')})`;
}

/** Minutes and shares by zone. */
function zonesTable(zones: TimeInZone): TableView {
  const align = 'right' as const;
  return table({
    caption: 'Time in zone',
    columns: [
      { key: 'zone', heading: 'Zone' },
      { key: 'time', heading: 'Time', align },
      { key: 'share', heading: 'Share', align },
    ],
    rows: (['easy', 'threshold', 'hard'] as const).map((zone) => ({
      zone: ZONES[zone].name,
      time: timeWords(60 * Math.round(zones.minutes * zones[zone].median)),
      share: rangedWords(zones[zone]),
    })),
    note: [
      zones.uncounted > 0 ? `${timeWords(60 * zones.uncounted)} could not be sorted.` : '',
      'By heart rate short hard pieces look easier, for heart rate lags.',
    ]
      .filter(Boolean)
      .join(' '),
  });
}

/** The same week by the goal of its sessions; null unless each session says what it was meant to be. */
export function goalTable(pieces: readonly TrainingPiece[]): TableView | null {
  const shares = sharesByGoal(pieces);
  if (shares === null) return null;
  const index = polarizationIndex(shares);
  return table({
    caption: 'By the goal of the sessions',
    columns: [
      { key: 'zone', heading: 'Meant as' },
      { key: 'share', heading: 'Share of sessions', align: 'right' },
    ],
    rows: (['easy', 'threshold', 'hard'] as const).map((zone) => ({
      zone,
      share: percentWords(shares[zone]),
    })),
    note: Number.isNaN(index) ? 'No polarization index.' : `Polarization index ${formatNumber(index, 2)}.`,
  });
}

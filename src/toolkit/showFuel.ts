import { formatNumber, withUnit } from '../base/format.ts';
import { demandChart } from '../charts/demandChart.ts';
import type { Spread } from '../numerics/quantiles.ts';
import type { StepTest } from '../physiology/stepTest.ts';
import type { Condition } from '../physiology/training/conditions.ts';
import { type Demand, demandAt } from '../physiology/training/energy.ts';
import { intakeFor } from '../physiology/training/intake.ts';
import { valuesAt } from '../physiology/valuesAt.ts';
import {
  folded,
  type NoticeView,
  notice,
  prose,
  type Showable,
  type TableView,
  table,
} from '../view/view.ts';
import { type Display, intensityWords } from './display.ts';
import type { Answered } from './methodRows.ts';
import { timeWords } from './sayHour.ts';

interface FuelOptions {
  test: StepTest;
  display: Display;
  first: Answered | null;
  second: Answered | null;
  /** W or km/h; the second threshold when left open. */
  intensity: number | null;
  /** Length of the planned session; null when none is planned. */
  minutes: number | null;
  conditions: Partial<Record<Condition, boolean>>;
}

/** Energy and carbohydrate of an hour, what to take in, and where all this comes from. */
export function showFuel(options: FuelOptions): Showable {
  const { display, first, second } = options;
  if (first === null || second === null || !(first.intensity < second.intensity))
    return notice(
      'note',
      'No demand without two thresholds',
      'The mix of fuels is placed by the two chosen thresholds.',
    );
  if (display.bodyMass === null)
    return notice('note', 'No demand without a body mass', 'Enter it at the top: energy grows with it.');
  const at = options.intensity ?? second.intensity;
  const demand = demandOf(options, at, first, second);
  if (demand === null)
    return notice('note', 'No equation for this sport', 'For rowing a test with oxygen uptake is needed.');
  const points = pointsOver(options, first, second);
  return [
    sayFuel(demand, at, options),
    points.length > 1
      ? demandChart({
          axis: display.axis,
          points,
          thresholds: [first, second],
          planned: { intensity: at, label: intensityWords(at, display) },
          title: 'Carbohydrate an hour burns',
          summary: `Band: 95 % range. At ${intensityWords(at, display)} ${rangeWords(demand.carbohydrate, 'g/h', 5)}. It comes from the body’s stores and from what is taken in.`,
          data: demandTable(options, [first.intensity, second.intensity, at], first, second),
        })
      : null,
    folded('Where this comes from, and what it is not', prose`${FUEL_SOURCES}`),
  ];
}

function demandOf(
  { test, display }: FuelOptions,
  intensity: number,
  first: Answered,
  second: Answered,
): Demand | null {
  const lt2 = second.intensity;
  const oxygen = intensity <= lt2 ? valuesAt(test, intensity, { lt2 }).oxygenUptake : null;
  const perKg = test.oxygenUptakeUnit === 'ml/min/kg';
  return demandAt({
    sport: test.sport,
    axis: test.axis,
    intensity,
    mass: display.bodyMass!,
    lt1: first.intensity,
    lt2,
    measuredOxygen: oxygen === null ? null : oxygen * (perKg ? display.bodyMass! : 1),
  });
}

/** Between them the demand is all but a straight line. */
const POINTS = 12;

/** Over the tested range; above the second threshold the demand is no steady one and is not drawn. */
function pointsOver(options: FuelOptions, first: Answered, second: Answered) {
  const { lo } = options.display;
  const top = second.intensity;
  return Array.from({ length: POINTS }, (_, i) => lo + ((top - lo) * i) / (POINTS - 1)).flatMap(
    (intensity) => {
      const demand = demandOf(options, intensity, first, second);
      return demand === null ? [] : [{ intensity, ...demand.carbohydrate }];
    },
  );
}

/** `150–220 g/h`, rounded to steps that the range deserves. */
function rangeWords({ low, high }: Spread, unit: string, step: number): string {
  const rounded = (value: number) => formatNumber(Math.round(value / step) * step, 0);
  return `${rounded(low)}–${withUnit(rounded(high), unit)}`;
}

function sayFuel(demand: Demand, at: number, { display, minutes, conditions }: FuelOptions): NoticeView {
  const burn =
    `An hour at **${intensityWords(at, display)}** takes about ${rangeWords(demand.kilocalories, 'kcal', 10)} and burns ` +
    `${rangeWords(demand.carbohydrate, 'g', 5)} of carbohydrate.`;
  const above = demand.aboveSecond ? ' Above the second threshold it is more than that.' : '';
  if (conditions.illness)
    return notice(
      'caution',
      'Ill: no advice on food from here',
      'Rest, and leave what to eat to a doctor or dietitian.',
    );
  return notice('note', intakeTitle(minutes), `${burn}${above} ${intakeWords(minutes)}`);
}

function intakeTitle(minutes: number | null): string {
  if (minutes === null) return 'What an hour takes';
  const { gramsPerHour } = intakeFor(minutes);
  const session = `${timeWords(60 * minutes)} of training`;
  if (gramsPerHour === null) return `${session}: nothing needs to be taken in`;
  const [low, high] = gramsPerHour;
  return low === 0
    ? `${session}: up to ${withUnit(String(high), 'g/h')} of carbohydrate`
    : `${session}: ${low}–${withUnit(String(high), 'g/h')} of carbohydrate`;
}

const intakeWords = (minutes: number | null): string =>
  minutes === null
    ? ''
    : `Usual intake for that length: ${intakeFor(minutes).words}. Nobody replaces all that is burned, nor needs to.`;

function demandTable(
  options: FuelOptions,
  intensities: readonly number[],
  first: Answered,
  second: Answered,
): TableView {
  const align = 'right' as const;
  return table({
    caption: 'Demand of an hour',
    columns: [
      { key: 'at', heading: 'At' },
      { key: 'oxygen', heading: 'Oxygen uptake', unit: 'L/min', align },
      { key: 'energy', heading: 'Energy', align },
      { key: 'carbohydrate', heading: 'Carbohydrate burned', align },
    ],
    rows: [...new Set(intensities)].flatMap((intensity) => {
      const demand = demandOf(options, intensity, first, second);
      if (demand === null) return [];
      return [
        {
          at: intensityWords(intensity, options.display),
          oxygen: formatNumber(demand.oxygen, 2),
          energy: rangeWords(demand.kilocalories, 'kcal', 10),
          carbohydrate: rangeWords(demand.carbohydrate, 'g', 5),
        },
      ];
    }),
  });
}

const FUEL_SOURCES = `- **Oxygen uptake:** as measured in the test, else by the metabolic equations of the American College of Sports Medicine, which miss single people by some 7 % (from memory).
- **Energy:** Lusk 1924, by the respiratory exchange ratio. That ratio is not known here; it is taken from a range between the thresholds (Hafen & Vehrs 2018, Sports 6:154, from memory; edges are our rule).
- **Carbohydrate:** anywhere between Péronnet & Massicotte 1991 and the share of energy at 4.1 kcal/g, which differ by some 14 %.
- **Intake:** Thomas, Erdman & Burke 2016, joint position statement, Med Sci Sports Exerc 48:543–568 (from memory).

It is training advice for healthy adults and no dietary advice for anybody ill. With diabetes, pregnancy, a disorder of eating or digestion, or in doubt, a doctor or a licensed dietitian decides.`;

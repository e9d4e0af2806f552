import { formatIntensity, roundToError, THIN_SPACE, withUnit } from '../base/format.ts';
import { type Axis, type DisplayUnit, displayUnits, unitOf } from '../base/units.ts';
import type { Interval, IntervalEnd } from '../physiology/samplingTypes.ts';
import type { Readings, StepTest } from '../physiology/stepTest.ts';

/** In which units one athlete's intensities are shown. */
export interface Display {
  axis: Axis;
  /** Unit of the test itself: W or km/h. */
  unit: 'W' | 'km/h';
  /** A second unit beside it: W/kg, a pace, or none. */
  second: DisplayUnit | null;
  /** kg. */
  bodyMass: number | null;
  /** The range that the readings cover, W or km/h: nothing is answered outside it. */
  lo: number;
  hi: number;
}

/**
 * How to show the intensities of a test. Of several second units the wanted one is taken where it applies, else
 * the usual one of the sport.
 */
export function displayOf(
  test: Pick<StepTest, 'sport' | 'axis' | 'bodyMass'>,
  { x }: Readings,
  wanted: DisplayUnit | null = null,
): Display {
  const { sport, axis, bodyMass } = test;
  const unit = unitOf(axis);
  const others = displayUnits(sport, axis, bodyMass).filter((other) => other !== unit);
  const second = others.find((other) => other === wanted) ?? others[0] ?? null;
  return { axis, unit, second, bodyMass, lo: x[0]!, hi: x.at(-1)! };
}

/** How an intensity is written. */
export interface Shown {
  /** Which of the two units; default the test's own. */
  in?: DisplayUnit | null;
  /** Standard deviation on the test's axis: fixes how many digits are shown. */
  sd?: number | null;
  /** True for an intensity that is a stage: in the test's own unit it is shown as the machine was set. */
  asSet?: boolean;
}

/** Steps that machines are set in, W and km/h: a stage between them was given in another unit, a pace or W/kg (our rule). */
const SET_STEPS: Record<Axis, number> = { power: 0.5, speed: 0.05 };

/** A stage as it was set, where that needs more decimals than usual: 137.5 W; null where it does not. */
function finelySet(intensity: number, axis: Axis): string | null {
  const steps = intensity / SET_STEPS[axis];
  if (Math.abs(steps - Math.round(steps)) > 1e-6) return null;
  const usual = axis === 'power' ? 0 : 1;
  const text = String(Number(intensity.toFixed(2)));
  return Number(text) === Number(intensity.toFixed(usual)) ? null : text;
}

/** An intensity in words, rounded to what its error allows: `281 W`, `4:32 /km`. */
export function intensityWords(
  intensity: number,
  display: Display,
  { in: unit, sd, asSet }: Shown = {},
): string {
  const { axis, bodyMass } = display;
  const set = asSet && (unit ?? display.unit) === display.unit ? finelySet(intensity, axis) : null;
  if (set !== null) return withUnit(set, display.unit);
  return formatIntensity(intensity, axis, unit ?? display.unit, { bodyMass, error: sd ?? null });
}

/** An intensity with its pace, for runners who go by that: `15.0 km/h (4:00 /km)`; others have the one unit. */
export function withPace(intensity: number, display: Display, shown: Shown = {}): string {
  const words = intensityWords(intensity, display, shown);
  if (display.axis !== 'speed' || display.second === null) return words;
  return `${words} (${intensityWords(intensity, display, { ...shown, in: display.second })})`;
}

const bare = (text: string): string => text.split(THIN_SPACE)[0]!;

/** An interval in words, `275–289 W`; with an end beyond the tested range `310 to above 340 W`. */
export function rangeWords(interval: Interval, display: Display, shown: Shown = {}): string {
  const end = ({ value, beyond }: IntervalEnd) => {
    if (value !== null) return bare(intensityWords(value, display, shown));
    return beyond === 'below'
      ? `below ${bare(intensityWords(display.lo, display, { in: shown.in }))}`
      : `above ${bare(intensityWords(display.hi, display, { in: shown.in }))}`;
  };
  const [, unit = ''] = intensityWords(display.hi, display, shown).split(THIN_SPACE);
  const [low, high] = [end(interval.low), end(interval.high)];
  if (low === high) return withUnit(low, unit);
  const isOpen = interval.low.value === null || interval.high.value === null;
  return withUnit(isOpen ? `${low} to ${high}` : `${low}–${high}`, unit);
}

/** An interval as it stands in a sentence: `from 275 to 289 W`, `from 310 W to above the tested 340 W`. */
export function spanOf({ low, high }: Interval, display: Display, shown: Shown = {}): string {
  const words = (x: number, digits: Shown = {}) => intensityWords(x, display, digits);
  if (low.value !== null && high.value !== null)
    return `from ${bare(words(low.value, shown))} to ${words(high.value, shown)}`;
  const from = low.value === null ? `below the tested ${words(display.lo)}` : words(low.value, shown);
  const to = high.value === null ? `above the tested ${words(display.hi)}` : words(high.value, shown);
  return `from ${from} to ${to}`;
}

/** The same without its unit, for a column that names it. */
export const bareRange = (interval: Interval, display: Display, shown: Shown = {}): string =>
  bare(rangeWords(interval, display, shown));

/** An intensity without its unit. */
export const bareIntensity = (intensity: number, display: Display, shown: Shown = {}): string =>
  bare(intensityWords(intensity, display, shown));

/** A share as a percentage: `3 %`; below half a per cent but not nothing: `< 1 %`. */
export function percentWords(share: number): string {
  if (share > 0 && share < 0.005) return `< ${withUnit('1', '%')}`;
  if (share < 1 && share > 0.995) return `> ${withUnit('99', '%')}`;
  return withUnit((100 * share).toFixed(0), '%');
}

/** A lactate in words, two decimals: `2.35 mmol/L`. */
export const lactateWords = (lactate: number, decimals = 2): string =>
  withUnit(lactate.toFixed(decimals), 'mmol/L');

/** A heart rate in words: `163 bpm`; a dash where it cannot be told. */
export const heartRateWords = (heartRate: number | null): string =>
  heartRate === null ? '–' : withUnit(heartRate.toFixed(0), 'bpm');

/** The size of an error by its own first digits: `4.2`, `28`. */
export const errorWords = (sd: number): string => roundToError(sd, sd / 10);

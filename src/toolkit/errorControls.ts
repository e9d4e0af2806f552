import { ERROR_SOURCES, type ErrorModel } from '../physiology/errorModel.ts';
import { type Explanation, type Slider, slider } from '../view/controls.ts';

/** A control for each term of the error model; shares are moved as percentages. */
const TERMS = {
  repeatability: { label: 'Repeatability of the meter', unit: 'mmol/L', max: 0.5, step: 0.01 },
  repeatabilityShare: { label: 'Repeatability, growing with lactate', unit: '%', max: 20, step: 0.5 },
  gain: { label: 'Calibration, in proportion', unit: '%', max: 20, step: 0.5 },
  offset: { label: 'Calibration, added', unit: 'mmol/L', max: 0.5, step: 0.01 },
  rounding: { label: 'Step of the display', unit: 'mmol/L', max: 0.5, step: 0.01 },
  delay: { label: 'Time of the sample', unit: 's', max: 60, step: 1 },
  contamination: { label: 'Samples with sweat in them', unit: '%', max: 20, step: 0.5 },
  contaminationSize: { label: 'What sweat adds', unit: 'mmol/L', max: 5, step: 0.1 },
  intensityScale: { label: 'Scale of ergometer, power meter or treadmill', unit: '%', max: 5, step: 0.1 },
  intensityJitter: { label: 'Intensity held in a stage', unit: '%', max: 5, step: 0.1 },
} as const satisfies Record<keyof ErrorModel, Omit<Slider, 'control' | 'value' | 'min'>>;

type ErrorTerm = keyof ErrorModel;

/** What each of them is, in a sentence. */
const MEANINGS: Record<ErrorTerm, string> = {
  repeatability:
    'How far readings of the same blood scatter: one standard deviation, the part that is the same at any lactate.',
  repeatabilityShare:
    'How far readings of the same blood scatter besides, in proportion to lactate: one standard deviation. At 0 the scatter is the same at any lactate.',
  gain: 'How far off the meter may be in proportion, as a standard deviation: one error for the whole test, which moves high readings most.',
  offset:
    'How far off the meter may be by a fixed amount, as a standard deviation: one error for the whole test.',
  rounding: 'The smallest step that the display shows: a reading may lie half of it to either side.',
  delay:
    'How far from its planned second a sample is taken, as a standard deviation: lactate has moved on by then.',
  contamination: 'How often sweat or the first drop gets into a sample, which then reads too high.',
  contaminationSize: 'By how much such a sample reads too high, on average.',
  intensityScale:
    'How far off the device may be in proportion, as a standard deviation: one error for the whole test.',
  intensityJitter:
    'How far from its setting athlete or machine holds a stage, as a standard deviation, each stage apart.',
};

/** The explanation of a source of error, with where its usual size comes from. */
export const aboutError = (term: ErrorTerm): Explanation => ({
  says: MEANINGS[term],
  source: ERROR_SOURCES[term],
});

const isShare = (term: ErrorTerm) => TERMS[term].unit === '%';
// 0.07 · 100 is 7.000000000000001 in binary.
const toPercent = (share: number) => Number((100 * share).toPrecision(6));

/** A control for one source of error (a standard deviation, unless its name says otherwise), from its usual size. */
export const errorSlider = (term: ErrorTerm, usual: ErrorModel): Slider =>
  slider({
    ...TERMS[term],
    min: 0,
    value: isShare(term) ? toPercent(usual[term]) : usual[term],
    about: aboutError(term),
  });

type Controls = Partial<Record<ErrorTerm, Slider>>;

/**
 * The error model with the values of these controls in the place of the usual ones. A group may be all that a
 * cell exports; what is no source of error is passed over.
 */
export function errorsFrom(usual: ErrorModel, ...groups: readonly Controls[]): ErrorModel {
  const error = { ...usual };
  for (const term of Object.keys(TERMS) as ErrorTerm[]) {
    const control = groups.map((group) => group[term]).find(Boolean);
    if (control) error[term] = isShare(term) ? control.value / 100 : control.value;
  }
  return error;
}

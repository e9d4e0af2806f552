import { InputError } from '../base/inputError.ts';

/** The errors that a lactate reading and an intensity can carry; all 0 means a perfect test. */
export interface ErrorModel {
  /** Repeatability of one reading, the part that does not grow with lactate: standard deviation, mmol/L. */
  repeatability: number;
  /** Repeatability, the part that grows with lactate: coefficient of variation, as a fraction. */
  repeatabilityShare: number;
  /** Calibration gain, one for the whole test: standard deviation, as a fraction. */
  gain: number;
  /** Calibration offset, one for the whole test: standard deviation, mmol/L. */
  offset: number;
  /** Step of the display, mmol/L; 0 for none. */
  rounding: number;
  /** Time of a sample around the planned second: standard deviation, s. */
  delay: number;
  /** Chance that sweat or a first drop gets into a sample, as a fraction. */
  contamination: number;
  /** Mean lactate that a contaminated sample gains, mmol/L. */
  contaminationSize: number;
  /** Scale of the power meter, ergometer or treadmill, one for the whole test: standard deviation, as a fraction. */
  intensityScale: number;
  /** Intensity kept in each stage around the nominal one: standard deviation, as a fraction. */
  intensityJitter: number;
}

/**
 * The error model as it was given, if every term can be what it says.
 *
 * Throws    InputError naming the term that is no size, or the chance that is none
 */
export function checkedErrorModel(error: ErrorModel): ErrorModel {
  for (const term of Object.keys(NO_ERROR) as (keyof ErrorModel)[]) {
    const most = term === 'contamination' ? 1 : Number.MAX_VALUE;
    if (error[term] >= 0 && error[term] <= most) continue;
    const range = term === 'contamination' ? 'from 0 to 1' : 'of 0 or more';
    throw new InputError(`error model: ${term} must be a number ${range}, got ${error[term]}`, {
      field: term,
    });
  }
  return error;
}

/** No error at all: the starting point for models that set one term. */
export const NO_ERROR: ErrorModel = {
  repeatability: 0,
  repeatabilityShare: 0,
  gain: 0,
  offset: 0,
  rounding: 0,
  delay: 0,
  contamination: 0,
  contaminationSize: 1,
  intensityScale: 0,
  intensityJitter: 0,
};

/** A handheld meter, a finger or ear-lobe sample, a usual power meter or treadmill. */
export const HANDHELD: ErrorModel = {
  repeatability: 0.15,
  repeatabilityShare: 0.04,
  gain: 0.07,
  offset: 0.1,
  rounding: 0.1,
  delay: 10,
  contamination: 0.03,
  contaminationSize: 1,
  intensityScale: 0.015,
  intensityJitter: 0.005,
};

/** A laboratory analyser with a calibrated ergometer. */
export const BENCH: ErrorModel = {
  repeatability: 0.05,
  repeatabilityShare: 0.02,
  gain: 0.03,
  offset: 0.05,
  rounding: 0.01,
  delay: 10,
  contamination: 0.02,
  contaminationSize: 1,
  intensityScale: 0.01,
  intensityJitter: 0.005,
};

/** Where the size of each term comes from. */
export const ERROR_SOURCES: Record<keyof ErrorModel, string> = {
  repeatability:
    'Residual SD of handheld meters against a bench analyser 0.15–0.22 mmol/L between 0.9 and 4.9 mmol/L ' +
    '(Mentzoni 2024, Eur J Appl Physiol, abstract); part that grows with lactate split off by our rule.',
  repeatabilityShare:
    'SD below 0.5 mmol/L within one sample from 1 to 10 mmol/L (Bonaventura 2015, J Sports Sci Med 14:203–214, abstract); ' +
    'the size is our rule.',
  gain:
    'Our rule, for a meter that is checked: 7 %, a laboratory analyser 3 %. Meters differ on average by −10 % to +42 % ' +
    '(Mentzoni 2024, abstract).',
  offset: 'Our rule: one step of the display.',
  rounding:
    'Common practice: resolution of the display, rectangular between half a step below and half a step above.',
  delay:
    'Our rule: samples taken within some 20 s of the planned second; lactate drifts by the rise of the stage.',
  contamination:
    'Sweat holds several times the lactate of blood (Green 2000, abstract); how often it gets in is our rule.',
  contaminationSize: 'Our rule: exponential with this mean.',
  intensityScale: 'Common practice: usual accuracy of power meters and treadmill belts.',
  intensityJitter: 'Our rule.',
};

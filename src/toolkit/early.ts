/**
 * The part of `#hourline` that comes with the page: what the first cells of a workbook need to read a test and show
 * a chart. The rest (index.ts) arrives while these run, so it costs the first chart no time.
 */

// What a cell shows

export { chart, figures, folded, inShort, notice, onlyLive, prose, stack, table } from '../view/view.ts';
export { tableOf } from './tableOf.ts';

// Controls that a cell exports

export { choice, keeper, numberField, slider, textField, toggle } from '../view/controls.ts';
export {
  athleteField,
  bodyMassField,
  effortChoice,
  intensityField,
  lastStageChoice,
  meterChoice,
  paceChoice,
  sportChoice,
  stageMinutesField,
  usualErrors,
  wentToExhaustion,
} from './choices.ts';
export { boutGrid, readStepTest, recoveryGrid, recoveryIn, stageGrid } from './stages.ts';
export { sayWhoseData, whoseData } from './whoseData.ts';

// A step test, and its cautions

export { readBouts } from '../data-in/bouts.ts';
export { readRecovery } from '../data-in/recovery.ts';
export { heartRateAt, heartRatesOf } from '../physiology/heartRate.ts';
export { usableReadings } from '../physiology/readings.ts';
export { CAUTIONS, cautionsMarkdown } from './cautions.ts';

// Numbers in words, rounded to what their error allows

export {
  displayOf,
  errorWords,
  heartRateWords,
  intensityWords,
  lactateWords,
  percentWords,
  rangeWords,
} from './display.ts';

/**
 * `#hourline`: everything a cell may use, in the words of the trade. A cell imports from here, from other cells,
 * and from plot, arquero and d3-array by name.
 */

export { readStepTest } from '../data-in/stages.ts';
export { bandProbabilities, trainingBands } from '../physiology/bands.ts';
export { BASELINE_NAMES, baselineLactate } from '../physiology/baseline.ts';
// Curves.
export { compareCurves, fitCurve, MODELS } from '../physiology/curves/index.ts';
export { BENCH, HANDHELD, NO_ERROR } from '../physiology/errorModel.ts';
// Thresholds, their error, and bands.
export { estimateAll, estimateReadings } from '../physiology/estimate.ts';
export { heartRateAt, heartRatesOf } from '../physiology/heartRate.ts';
export { METHODS } from '../physiology/methods/index.ts';
export { usableReadings } from '../physiology/readings.ts';
export { sampleThresholds } from '../physiology/samplingError.ts';
export { checkTest } from '../physiology/testChecks.ts';
// Controls that a cell exports.
export { choice, numberField, slider, textField, toggle } from '../view/controls.ts';
// What a cell shows.
export { chart, figures, folded, notice, prose, stack, table } from '../view/view.ts';
export { disagreements, methodRows } from './agreement.ts';
export { CAUTIONS, cautionsMarkdown } from './cautions.ts';
export {
  baselineChoice,
  effortChoice,
  lastStageChoice,
  meterChoice,
  methodChoice,
  modelChoice,
  paceChoice,
  scaleChoice,
  sportChoice,
  usualErrors,
  wentToExhaustion,
} from './choices.ts';
// Numbers in words, rounded to what their error allows.
export {
  displayOf,
  errorWords,
  heartRateWords,
  intensityWords,
  lactateWords,
  percentWords,
  rangeWords,
} from './display.ts';
export { errorSlider, errorsFrom } from './errorControls.ts';
export { answered, answerOf, unanswered } from './methodRows.ts';
export { sayBands, sayThreshold, thresholdFigure } from './sayings.ts';
export { bandTable, limitsWords, showBands } from './showBands.ts';
export { showChecks } from './showChecks.ts';
export { showCurve } from './showCurve.ts';
export { showHeartRate } from './showHeartRate.ts';
// Results as pictures and tables.
export { showModels } from './showModels.ts';
export { sensitivityTable, showSensitivity } from './showSensitivity.ts';
export { methodCard, showThresholds, thresholdCautions, thresholdTable } from './showThresholds.ts';
// A step test: the table, the reading of it, its checks.
export { stageGrid } from './stages.ts';
export { tableOf } from './tableOf.ts';

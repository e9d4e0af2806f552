/**
 * `#hourline`: everything a cell may use, in the words of the trade. A cell imports from here, from other cells,
 * and from plot, arquero and d3-array by name.
 */

export * from './early.ts';

// A computation that the page makes step by step

export { job } from '../view/view.ts';

// Controls that a cell exports

export { drawsSlider, seedField } from './drawControls.ts';
export { errorSlider, errorsFrom } from './errorControls.ts';
export { sourceSwitch, switchedErrors } from './errorSwitches.ts';
export {
  anchorChoice,
  baselineChoice,
  methodChoice,
  modelChoice,
  scaleChoice,
  slopeField,
  stepMethodChoice,
} from './methodChoices.ts';
export { EVERY_METHOD, methodSwitch, numbersIn, onlyMethods, switchedOn, withoutSwitch } from './study.ts';

// Terms, explained where they stand and in a list

export { TERMS } from '../physiology/terms.ts';
export { term, termList } from './terms.ts';

// Checking a step test

export { BASELINE_NAMES, baselineLactate } from '../physiology/baseline.ts';
export { readingsOf } from '../physiology/boutReadings.ts';
export { checkTest } from '../physiology/testChecks.ts';
export { showChecks } from './showChecks.ts';

// Curves

export { compareCurves, fitCurve, MODELS } from '../physiology/curves/index.ts';
export { readingHandles } from './readingHandles.ts';
export { showCurve } from './showCurve.ts';
export { showModels } from './showModels.ts';

// Thresholds and their error

export { agreementOf } from '../physiology/agreement.ts';
export { constructionOf } from '../physiology/constructionOf.ts';
export { endPointResults } from '../physiology/endPointResults.ts';
export { BENCH, HANDHELD, NO_ERROR } from '../physiology/errorModel.ts';
export { estimateAll, estimateReadings } from '../physiology/estimate.ts';
export { METHODS, needsOf } from '../physiology/methods/index.ts';
export { REFUSAL_MEANINGS } from '../physiology/refusal.ts';
export { sampleThresholds } from '../physiology/samplingError.ts';
export { boutVerdicts, bracketOf } from '../physiology/steadyBouts.ts';
export { valuesAt } from '../physiology/valuesAt.ts';
export { disagreements, methodRows } from './agreement.ts';
export { boutsTable } from './boutsTable.ts';
export { figuresOf, settingWords, showKept } from './keptFigures.ts';
export { answered, answerOf, unanswered } from './methodRows.ts';
export { showAgreement } from './showAgreement.ts';
export { showLastStage } from './showLastStage.ts';
export { showConstruction, showMethods } from './showMethods.ts';
export { showNarrowing } from './showNarrowing.ts';
export { showBootstrap, showNotInside } from './showNotInside.ts';
export { readingMap, showReadingMap } from './showReadingMap.ts';
export { showRefined } from './showRefined.ts';
export { sensitivityTable, showSensitivity } from './showSensitivity.ts';
export { showShares } from './showShares.ts';
export { methodCard, showThresholds, thresholdCautions, thresholdTable } from './showThresholds.ts';
export { valuesTable } from './valuesTable.ts';

// Training bands

export { bandProbabilities, trainingBands } from '../physiology/bands.ts';
export { bandTable, limitsWords, showBands } from './showBands.ts';
export { showHeartRate } from './showHeartRate.ts';

// Answers in words

export {
  sayBands,
  sayChange,
  sayInterval,
  sayOrder,
  sayPlanned,
  sayThreshold,
  steadyStateFigure,
  thresholdFigure,
} from './sayings.ts';

// A session of intervals: what it was, and the next one

export { nextSession } from '../physiology/training/nextSession.ts';
export { secondThresholdOf } from '../physiology/training/sessionLevel.ts';
export { reviewSession } from '../physiology/training/sessionReview.ts';
export { sessionIntensityField, sessionLengthField, staySlider, withMeterToggle } from './planControls.ts';
export {
  beforeChoice,
  betweenRepsChoice,
  reserveChoice,
  restField,
  sessionContext,
  sessionGrid,
  sessionIn,
  steadyLactateField,
  verdictBefore,
} from './sessionControls.ts';
export { showNextSession } from './showNextSession.ts';
export { showSession } from './showSession.ts';

// Could it be held for an hour?

export { holdForAnHour } from '../physiology/training/holdForAnHour.ts';
export { waysFromEfforts } from '../physiology/training/hourSources.ts';
export {
  allowanceSlider,
  claimField,
  claimIn,
  daysOffField,
  daysSinceField,
  levelChoice,
  sinceTest,
  thresholdForHour,
} from './hourControls.ts';
export { sayBreak, sayHour } from './sayHour.ts';
export { effortFitTable, formsTable, hourSources, hourTable, showHour } from './showHour.ts';
export {
  effortGrid,
  effortsIn,
  isLeftOver,
  pairGrid,
  pairsIn,
  trainingGrid,
  trainingIn,
  whyLeftOut,
} from './trainingTables.ts';

// A week or a session in three zones

export { patternOf, polarizationIndex } from '../physiology/training/polarization.ts';
export { timeInZone, zoneThresholdsOf } from '../physiology/training/timeInZone.ts';
export { goalTable, showZones } from './showZones.ts';

// Retest

export { repeatsOf } from '../numerics/repeats.ts';
export { retestOf } from '../physiology/training/retest.ts';
export { compareWith, ownRepeatability, sameChoice, whenField } from './retests.ts';
export { showOwnRepeats, showTwoMeters } from './showRepeats.ts';
export { sayRetest, shiftTable, showRetest } from './showRetest.ts';

// The day and the fuel

export { effectsOf } from '../physiology/training/conditions.ts';
export { demandAt, OXYGEN_UPTAKE, substratesBurned } from '../physiology/training/energy.ts';
export { intakeFor } from '../physiology/training/intake.ts';
export { conditionSwitch, conditionsOf } from './conditionControls.ts';
export { showDay } from './showDay.ts';
export { showFuel } from './showFuel.ts';

// The lesson: simulated athletes whose truth is known

export { knownAthlete } from '../physiology/lesson/lessonAthletes.ts';
export { repLengthSlider, repRestSlider, showAbove } from './lessonAbove.ts';
export { lessonAnswer } from './lessonAnswers.ts';
export { addedErrorSlider, proportionalErrorSlider, showCalibration } from './lessonCalibration.ts';
export { showClass } from './lessonClass.ts';
export { showIncrements } from './lessonIncrements.ts';
export { showOneReading, simulatedStages } from './lessonReading.ts';
export { showRepeatsOf } from './lessonRepeats.ts';
export { showStageLengths } from './lessonStages.ts';
export {
  anyMethodChoice,
  incrementSlider,
  showTruth,
  simulatedAthleteChoice,
  simulateTest,
  stageLengthSlider,
  startSlider,
} from './lessonTest.ts';
export { showAgainstTruth } from './lessonTruth.ts';

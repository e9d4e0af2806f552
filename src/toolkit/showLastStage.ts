import { type EndPointResult, endPointResults } from '../physiology/endPointResults.ts';
import type { Estimate, EstimateOptions } from '../physiology/estimate.ts';
import { methodById } from '../physiology/methods/index.ts';
import { incompleteLast, LEAST_SHARE } from '../physiology/readings.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { StepTest } from '../physiology/stepTest.ts';
import { type NoticeView, notice, type TableView, table } from '../view/view.ts';
import { bareIntensity, type Display, intensityWords, percentWords } from './display.ts';
import { answerOf } from './methodRows.ts';

/**
 * What hangs on a last stage that was not finished: each method that uses the end of the test with that stage counted
 * in part, left out, and counted in full. A note when the test ended on a full stage.
 */
export function showLastStage(
  test: StepTest,
  { display, sampling, ...options }: EstimateOptions & { display: Display; sampling: SamplingResult },
): TableView | NoticeView {
  const last = incompleteLast(test);
  if (last === null)
    return notice('note', 'The last stage was finished', 'Nothing hangs on how it is counted.');
  const { share, credited, index } = last;
  const { unit } = display;
  // To the digits of the table of thresholds, or the two would seem to differ.
  const figure = (estimate: Estimate) =>
    estimate.refused
      ? 'no answer'
      : bareIntensity(estimate.intensity, display, answerOf(sampling, estimate.method)?.digits);
  return table({
    caption: 'Methods that use the end of the test, by what the last stage counts for',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'credited', heading: 'In part', unit, align: 'right' },
      { key: 'dropped', heading: 'Left out', unit, align: 'right' },
      { key: 'nominal', heading: 'As if finished', unit, align: 'right' },
    ],
    rows: endPointResults(test, options).map(({ method, results }: EndPointResult) => ({
      method: methodById(method).name,
      credited: figure(results.credited),
      dropped: figure(results.dropped),
      nominal: figure(results.nominal),
    })),
    note:
      `Of the stage at ${intensityWords(test.stages[index]!.intensity, display)} ${percentWords(share)} was done: ` +
      (share < LEAST_SHARE
        ? 'less than half, so it is left out when it would count in part.'
        : `in part it counts as ${intensityWords(credited, display)}.`),
  });
}

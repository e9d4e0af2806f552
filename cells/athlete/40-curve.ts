import {
  fitCurve,
  onlyLive,
  prose,
  readingHandles,
  showCurve,
  usualErrors,
} from '#hourline';
import { meter } from './15-protocol.ts';
import { stages } from './20-stages.ts';
import { display, readings, test } from './25-readings.ts';
import { baseline, model } from './35-model.ts';

export const curve = fitCurve(readings, {
  model: model.value,
});

// Methods that read a level off a curve read it off this one.
export const reading = {
  curve: curve.model,
  baseline: baseline.value,
};

const beside = fitCurve(readings, {
  model: curve.model === 'cubic' ? 'exponential' : 'cubic',
});

export default [
  prose`
    ## The curve
    Bars show what the meter repeats to. A curve that misses
    many of them describes some other athlete. The dashed
    curve is another common choice, for comparison only.`,
  onlyLive(prose`
    Drag a reading up or down to see what hangs on it.`),
  showCurve(readings, [curve, beside], {
    display,
    error: usualErrors(meter.value),
    handles: readingHandles(stages, {
      test,
      readings,
      display,
    }),
  }),
];

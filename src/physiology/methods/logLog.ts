import { answerMark, type Mark, type Place, scene } from '../construction.ts';
import { LogLogFit } from '../curves/logLog.ts';
import { intensityText } from '../refusal.ts';
import { LogLogBend } from './estimators/bends.ts';
import type { Method, Situation } from './method.ts';

/** The two lines as they were fitted; none when they could not be. */
function linesOf({ readings: { x, y, count } }: Situation): Mark[] {
  const fit = new LogLogFit(x, Float64Array.from(count));
  if (fit.fit(y) !== 'ok') return [];
  const bend: Place = [fit.intensity, fit.lactate];
  const line = (from: Place, to: Place): Mark => ({
    kind: 'line',
    from,
    to,
    role: 'piece',
    label: 'fitted line',
  });
  return [line([fit.lo, fit.at(fit.lo)], bend), line(bend, [fit.hi, fit.at(fit.hi)])];
}

/** Log–log: the bend between two straight lines of log lactate against log intensity. */
export const logLog: Method = {
  id: 'log-log',
  name: 'Log–log',
  claim: 'LT1',
  meaning: 'Where lactate, drawn on logarithmic axes, bends from a flat line to a steep one.',
  source: 'Beaver, Wasserman & Whipp 1985, J Appl Physiol 59:1936–1940 (from memory)',
  protocol: 'step',
  curve: null,
  anyCurve: false,
  minPoints: 5,
  maximal: false,
  discrete: false,
  bias: 'Moves with the first and the last stages, and lands late when the last reading is steep; little repeatable.',
  shorterStages: 'little',
  refusals: ['E_NOT_CONVEX', 'E_SINGULAR'],
  refuses: ({ x }) =>
    x[0]! > 0
      ? null
      : {
          code: 'E_PROTOCOL',
          reason: 'Intensity 0 has no logarithm: leave the rest sample out of the readings.',
        },
  prepare: ({ x, count }) => new LogLogBend(x, Float64Array.from(count)),
  explain: () =>
    'On logarithmic axes lactate does not bend upward: there is no flat part followed by a steeper one.',
  warnings: ({ x }, { readings }) => {
    const below = readings.x.findLastIndex((value) => value <= x) + 1;
    const above = readings.x.length - 1 - readings.x.findLastIndex((value) => value < x);
    if (Math.min(below, above) > 2) return [];
    const side = below <= above ? 'below' : 'above';
    return [
      `Only two readings lie ${side} the bend at ${intensityText(x, readings.axis)}: it rests on each of them.`,
    ];
  },
  construct: (answer, situation) => ({
    axes: { x: 'intensity', y: 'lactate', logarithmic: true },
    marks: [...scene(situation), ...linesOf(situation), ...answerMark(answer)],
    caption: 'On two logarithmic axes two straight lines that meet; the answer is where they do.',
  }),
};

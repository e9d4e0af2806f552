import { BASELINE_NAMES, BASELINE_NUMBERS, baselineLactate } from '../baseline.ts';
import { answerMark, chordMarks, ON_LACTATE, type Place, scene } from '../construction.ts';
import { intensityText, lactateText, notConvex, singular } from '../refusal.ts';
import type { CurveId, Readings } from '../stepTest.ts';
import { anchorIndex, FITTED, MEASURED, ModifiedDmax, OVER_STAGE_BEFORE } from './estimators/chord.ts';
import { SUSTAINED_RISE } from './estimators/rises.ts';
import { oneDecimal } from './level.ts';
import type { Method, MethodOptions, Situation } from './method.ts';

/** What the first rise is over, as the number that estimators know. */
const overNumber = ({ anchor, baseline }: MethodOptions): number =>
  anchor === 'baseline' ? BASELINE_NUMBERS[baseline] : OVER_STAGE_BEFORE;

const anchorOf = ({ y, restLactate }: Readings, options: MethodOptions): number =>
  anchorIndex(y, overNumber(options), restLactate ?? Number.NaN);

/** How near the limit, mmol/L, a rise has to be for noise to carry the anchor to another stage (our rule). */
const CLOSE_CALL = 0.2;

/** What the first rise is measured over, in words. */
const overWhat = ({ anchor, baseline }: MethodOptions): string =>
  anchor === 'baseline' ? `the baseline (${BASELINE_NAMES[baseline]})` : 'the stage before';

type Details = Pick<Method, 'id' | 'name' | 'source'> & {
  curve: CurveId;
  /** Whether the chord may run through the fitted ends, when that is chosen; else always through the measured ones. */
  mayBeFitted: boolean;
};

/**
 * Modified Dmax: the chord starts at the point before the first rise, and ends at the last one.
 *
 * Source    on the cubic the chord runs through measured points, as the paper says (from memory); on the exponential it
 *           follows the choice made for the Dmax family: our rule
 */
function modifiedDmaxOn({ mayBeFitted, ...details }: Details): Method {
  const isFitted = ({ ends }: MethodOptions) => mayBeFitted && ends === 'fitted';
  return {
    ...details,
    claim: 'LT2',
    meaning:
      'The point of the curve farthest from the straight line between the stage before the first rise and the last stage.',
    protocol: 'step',
    anyCurve: false,
    minPoints: 5,
    maximal: true,
    discrete: false,
    bias: 'The start of the line jumps a whole stage with small errors: look at the distribution, not only at its spread.',
    shorterStages: 'higher',
    refusals: ['E_NO_RISE', 'E_EDGE', 'E_NOT_CONVEX', 'E_POINTS', 'E_SINGULAR'],
    refuses: (readings, { anchor, baseline }) =>
      anchor !== 'baseline' || baseline !== 'rest' || readings.restLactate !== null
        ? null
        : {
            code: 'E_POINTS',
            reason:
              'The first rise is counted from lactate at rest, and this test has no rest sample: choose another baseline.',
          },
    prepare: ({ x }, options, rest) =>
      new ModifiedDmax(overNumber(options), isFitted(options) ? FITTED : MEASURED, x, rest),
    explain: (code, { readings, options }) => {
      if (code === 'E_NO_RISE')
        return `No stage reads more than ${lactateText(SUSTAINED_RISE)} above ${options.anchor === 'baseline' ? overWhat(options) : 'the one before'}.`;
      if (code === 'E_EDGE') {
        return `Lactate first rises by more than ${lactateText(SUSTAINED_RISE)} at the last stage: no curve is left between.`;
      }
      return code === 'E_NOT_CONVEX' ? notConvex() : singular(readings.x.length);
    },
    warnings: (_answer, situation) => anchorWarnings(situation),
    construct: (answer, situation) => {
      const { readings, curve, options } = situation;
      const { x, y } = readings;
      const start = anchorOf(readings, options);
      const last = x.length - 1;
      const end = (i: number): Place => [
        x[i]!,
        isFitted(options) && curve?.status === 'ok' ? curve.at(x[i]!) : y[i]!,
      ];
      const chord = start < 0 ? [] : chordMarks(curve, end(start), end(last), answer);
      return {
        axes: ON_LACTATE,
        marks: [...scene(situation), ...chord, ...answerMark(answer)],
        caption: `The line starts at the stage before lactate first rises by more than ${oneDecimal(SUSTAINED_RISE)} mmol/L over ${overWhat(options)}; the answer is where the curve lies farthest below it.`,
      };
    },
  };
}

function anchorWarnings({ readings, options }: Situation): string[] {
  const { x, y, axis } = readings;
  const start = anchorOf(readings, options);
  const overBaseline = options.anchor === 'baseline';
  const base = overBaseline ? baselineLactate(options.baseline, y, readings) : 0;
  const isClose = (value: number, i: number) =>
    Math.abs(y[i + 1]! - (overBaseline ? base : value) - SUSTAINED_RISE) < CLOSE_CALL;
  const close = y.some((value, i) => i <= start && isClose(value, i));
  const over = overBaseline ? ` over ${overWhat(options)}` : '';
  const place = `The line starts at ${intensityText(x[start]!, axis)}, the stage before the first rise${over}.`;
  return close
    ? [
        `${place} A rise there is close to ${lactateText(SUSTAINED_RISE)}: a small error moves the start a whole stage.`,
      ]
    : [place];
}

/** Dmax from the stage of the first rise on, on the polynomial of third degree. */
export const modifiedDmax = modifiedDmaxOn({
  id: 'modified-dmax',
  name: 'Modified Dmax',
  curve: 'cubic',
  mayBeFitted: false,
  source: 'Bishop, Jenkins & Mackinnon 1998, Med Sci Sports Exerc 30:1270–1275 (from memory)',
});

/** The same rule on an exponential curve. */
export const modifiedDmaxExponential = modifiedDmaxOn({
  id: 'modified-dmax-exponential',
  name: 'Exponential modified Dmax',
  curve: 'exponential',
  mayBeFitted: true,
  source:
    'After Bishop, Jenkins & Mackinnon 1998, Med Sci Sports Exerc 30:1270–1275, on the curve of Hughson et al. 1987, ' +
    'J Appl Physiol 62:1975–1981 (from memory)',
});

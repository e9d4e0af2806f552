import { formatNumber } from '../../base/format.ts';
import { unitOf } from '../../base/units.ts';
import { answerMark, ON_LACTATE, scene, tangentMark } from '../construction.ts';
import { intensityText, notConvex, singular } from '../refusal.ts';
import type { Readings } from '../stepTest.ts';
import { FixedSlope } from './estimators/bends.ts';
import type { Method, MethodOptions } from './method.ts';

/**
 * Slope of the tangent at 51°34′, mmol/L per km/h, for treadmill running (Keul 1979). Simon 1981 uses 45°, a slope of
 * 1. That the angles were drawn with 1 km/h as long as 1 mmol/L is from memory.
 */
const TREADMILL_SLOPE = 1.26;

/** NaN where no slope is published: a slope hangs on the unit of intensity. */
const slopeFor = ({ sport, axis }: Readings, { slope }: MethodOptions): number =>
  slope ?? (sport === 'running' && axis === 'speed' ? TREADMILL_SLOPE : Number.NaN);

const slopeText = (slope: number, { axis }: Readings): string =>
  `${formatNumber(slope, axis === 'power' ? 3 : 2)} mmol/L per ${unitOf(axis)}`;

/** Fixed slope: where the curve is as steep as a given line. */
export const fixedSlope: Method = {
  id: 'fixed-slope',
  name: 'Fixed slope',
  claim: 'LT2',
  meaning: 'Where lactate rises with intensity at a fixed rate, the same for every athlete.',
  source:
    'Keul, Simon, Berg et al. 1979, Dtsch Z Sportmed 30:212–218 (tangent at 51°34′); Simon et al. 1981, ' +
    'Dtsch Z Sportmed 32:7–14 (45°) (from memory, the unit of the slope too)',
  protocol: 'step',
  curve: 'exponential',
  anyCurve: false,
  curves: ['exponential', 'cubic'],
  minPoints: 5,
  maximal: false,
  discrete: false,
  alsoNeeds: ['running speed, or a slope of your own'],
  bias: 'Slopes are poorly known from few stages; longer stages make the curve steeper and bring the point forward.',
  shorterStages: 'higher',
  refusals: ['E_SCALE', 'E_NOT_REACHED', 'E_ALREADY_ABOVE', 'E_NOT_CONVEX', 'E_SINGULAR'],
  applies: (readings, options) => !Number.isNaN(slopeFor(readings, options)),
  refuses: (readings, options) => {
    if (slopeFor(readings, options) > 0) return null;
    return {
      code: 'E_SCALE',
      reason: `It depends on the unit of intensity, and a slope per ${unitOf(readings.axis)} is published for no ${readings.sport} test: give a slope above 0 of your own.`,
    };
  },
  prepare: (readings, options) => new FixedSlope(slopeFor(readings, options)),
  explain: (code, { readings, options }) => {
    const { x, axis } = readings;
    const slope = slopeText(slopeFor(readings, options), readings);
    if (code === 'E_NOT_REACHED')
      return `The curve is nowhere as steep as ${slope}: the threshold lies above the tested ${intensityText(x.at(-1)!, axis)}.`;
    if (code === 'E_ALREADY_ABOVE')
      return `The curve is steeper than ${slope} from the first stage (${intensityText(x[0]!, axis)}) on: the test started too hard.`;
    return code === 'E_NOT_CONVEX' ? notConvex() : singular(x.length);
  },
  warnings: (_answer, { readings, options }) => [
    `Slope: ${slopeText(slopeFor(readings, options), readings)}.`,
  ],
  construct: (answer, situation) => {
    const { readings, options } = situation;
    const slope = slopeFor(readings, options);
    const [from, to] = [readings.x[0]!, readings.x.at(-1)!];
    const line =
      answer === null
        ? []
        : [tangentMark([answer.x, answer.lactate], slope, from, to, slopeText(slope, readings))];
    return {
      axes: ON_LACTATE,
      marks: [...scene(situation), ...line, ...answerMark(answer)],
      caption:
        'A line of fixed slope is moved until it touches the curve from below; the answer is where it touches.',
    };
  },
};

import { formatNumber, withUnit } from '../base/format.ts';
import { type Axis, unitOf } from '../base/units.ts';
import { codeNumber, REFUSAL_CODES, type RefusalCode } from './refusalCodes.ts';
import type { Protocol } from './stepTest.ts';

/** The codes as small numbers for columns of draws; 0 there means answered. */
export const CODE_NUMBERS = Object.fromEntries(
  REFUSAL_CODES.map((code) => [code, codeNumber(code)]),
) as Record<RefusalCode, number>;

/** That a method gives no answer, and why: a result, not a fault. */
export interface Refusal {
  code: RefusalCode;
  /** One sentence for the reader, values filled in. */
  reason: string;
}

/** A lactate as it stands in a sentence: 2.35 mmol/L. */
export const lactateText = (lactate: number): string => withUnit(formatNumber(lactate, 2), 'mmol/L');

/** An intensity on the test's axis as it stands in a sentence: 275 W, 12.5 km/h. */
export const intensityText = (x: number, axis: Axis): string =>
  withUnit(formatNumber(x, axis === 'power' ? 0 : 1), unitOf(axis));

/** What each code stands for, for readers of a method's description. */
export const REFUSAL_MEANINGS: Record<RefusalCode, string> = {
  E_POINTS: 'There are fewer usable readings than it needs.',
  E_NOT_REACHED: 'What it looks for is never reached: the threshold lies above the tested range.',
  E_ALREADY_ABOVE:
    'What it looks for is already there at the first stage: the threshold lies below the tested range.',
  E_NO_RISE: 'Lactate shows no sustained rise.',
  E_NO_MIN: 'Lactate has no lowest point in between: it does not fall and rise again.',
  E_EDGE: 'The best place sits at the edge of the tested range, set by the protocol and not by the athlete.',
  E_NOT_CONVEX: 'The fitted curve bends the wrong way.',
  E_SUBMAX: 'It needs a test to (near) exhaustion.',
  E_NO_RECOVERY: 'There are no samples from the recovery, or the curve does not end where they begin.',
  E_NO_RETURN: 'Lactate in recovery never fell back to its value at the end of exercise.',
  E_NO_HYPERLACT: 'Lactate was not raised enough before the first stage.',
  E_PROTOCOL: 'The protocol is not the one it was defined on.',
  E_SCALE: 'It depends on the unit of intensity, and none is published for this sport.',
  E_SINGULAR: 'The curve it reads cannot be fixed by these readings.',
};

/** How each protocol is called in a sentence. */
export const PROTOCOL_NAMES: Record<Protocol, string> = {
  step: 'a step test',
  'lactate-minimum': 'a lactate minimum test',
  reverse: 'a test with falling intensities',
  bouts: 'a set of bouts at constant intensity',
};

/** The method is meant for another kind of test. */
export const wrongProtocol = (needed: Protocol, found: Protocol): Refusal => ({
  code: 'E_PROTOCOL',
  reason: `It is defined on ${PROTOCOL_NAMES[needed]}; this is ${PROTOCOL_NAMES[found]}.`,
});

/** The test has fewer points than the method needs. */
export const tooFewPoints = (needed: number, found: number, what = 'stages'): Refusal => ({
  code: 'E_POINTS',
  reason: `It needs at least ${needed} usable ${what} of different intensity; this test has ${found}.`,
});

/** The method uses the end of a test that did not go to the end. */
export const submaximal = (): Refusal => ({
  code: 'E_SUBMAX',
  reason: 'It needs a test to (near) exhaustion; this one is marked as stopped well before.',
});

/** In words: the level lies above all that was tested. Levels in mmol/L, the last stage in W or km/h. */
export const notReached = (level: number, peak: number, last: number, axis: Axis): string =>
  `Lactate never rises to ${lactateText(level)}: the highest value on the curve is ${lactateText(peak)}, so the ` +
  `threshold lies above the tested ${intensityText(last, axis)}.`;

/** In words: the level lies below all that was tested. Levels in mmol/L, the first stage in W or km/h. */
export const alreadyAbove = (level: number, first: number, axis: Axis): string =>
  `Lactate is already at or above ${lactateText(level)} at the first stage (${intensityText(first, axis)}): the ` +
  'test started too hard for this target, or the target is too low.';

/** In words: the readings leave the curve undetermined. */
export const singular = (points: number): string =>
  `The curve that this method reads cannot be fixed by these ${points} readings.`;

/** In words: the curve has not the shape that the method presumes. */
export const notConvex = (): string =>
  'The fitted curve bends the wrong way: lactate does not rise ever more steeply towards the end of the test.';

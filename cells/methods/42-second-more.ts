import { methodSwitch, prose } from '#hourline';

export const modified = methodSwitch('modified-dmax');
export const modifiedExponential = methodSwitch(
  'modified-dmax-exponential',
  false,
);
export const turnPoint2 = methodSwitch('turn-point-2');
export const individual = methodSwitch(
  'individual-anaerobic',
);
export const fixedSlope = methodSwitch('fixed-slope');
export const derivative = methodSwitch('second-derivative');
export const secondRise = methodSwitch('second-rise');
export const visual2 = methodSwitch('visual-2');
export const bisector = methodSwitch('bisector', false);

export default [
  prose`And by a bend, a tangent, a rise, or the eye:`,
  [modified, modifiedExponential, turnPoint2, individual],
  [fixedSlope, derivative, secondRise, visual2, bisector],
];

import { methodSwitch, prose } from '#hourline';

export const plus15 = methodSwitch(
  'baseline-plus-1.5',
  false,
);
export const fixed30 = methodSwitch('fixed-3.0', false);
export const fixed35 = methodSwitch('fixed-3.5', false);
export const fixed40 = methodSwitch('fixed-4.0');
export const equivalent10 = methodSwitch(
  'minimum-equivalent-plus-1.0',
  false,
);
export const equivalent15 = methodSwitch(
  'minimum-equivalent-plus-1.5',
);
export const dmax = methodSwitch('dmax');
export const dmaxExponential = methodSwitch(
  'dmax-exponential',
);

export default [
  prose`For the second threshold, by a level or a distance:`,
  [plus15, fixed30, fixed35, fixed40],
  [equivalent10, equivalent15, dmax, dmaxExponential],
];

import { methodSwitch, prose } from '#hourline';

export const firstRise = methodSwitch('first-rise');
export const plus03 = methodSwitch(
  'baseline-plus-0.3',
  false,
);
export const plus04 = methodSwitch(
  'baseline-plus-0.4',
  false,
);
export const plus05 = methodSwitch('baseline-plus-0.5');
export const plus10 = methodSwitch('baseline-plus-1.0');
export const fixed20 = methodSwitch('fixed-2.0');
export const logLog = methodSwitch('log-log');
export const equivalent = methodSwitch('minimum-equivalent');
export const turnPoint1 = methodSwitch('turn-point-1');
export const visual1 = methodSwitch('visual-1');

export default [
  prose`
    ## Which methods to look at
    Every switch stands here and again with its method. Those
    for the first threshold:`,
  [firstRise, plus03, plus04, plus05, plus10],
  [fixed20, logLog, equivalent, turnPoint1, visual1],
];

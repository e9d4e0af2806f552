import { prose, showMethods } from '#hourline';
import { turnPoint1 } from './40-first.ts';
import { turnPoint2 } from './42-second-more.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## Two bends of three straight lines
    Three lines that meet are laid through the readings so
    that they miss them by least. Each bend is one threshold.
    Count the readings on each piece: a line through two
    points fits anything, so a bend with one or two readings
    beyond it rests on those.`,
  [turnPoint1, turnPoint2],
  showMethods(study, 'turn-point-1', 'turn-point-2'),
];

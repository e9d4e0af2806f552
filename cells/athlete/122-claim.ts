import { claimField, levelChoice, prose } from '#hourline';
import { sport } from './10-athlete.ts';

export const claim = claimField(sport.value, 290);
export const level = levelChoice('trained');

export default [
  prose`What does the athlete say can be held for an hour?`,
  [claim, level],
];

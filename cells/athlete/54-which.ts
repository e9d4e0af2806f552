import { onlyLive, prose, stepMethodChoice } from '#hourline';

export const which = stepMethodChoice('modified-dmax');

export default [
  prose`
    ### How one of them is found
    Every figure above is a construction on the same curve.`,
  onlyLive(prose`
    Pick a method and see what it looks for on this athlete’s
    readings, and what is known of it.`),
  which,
];

import { meterChoice, prose } from '#hourline';

export const meter = meterChoice('handheld');

export default [
  prose`
    And a meter. A laboratory analyser repeats better than a
    handheld meter; neither is exact.`,
  meter,
];

import { prose, sourceSwitch } from '#hourline';

export const repeatability = sourceSwitch('repeatability');
export const rounding = sourceSwitch('rounding');
export const delay = sourceSwitch('delay');
export const contamination = sourceSwitch('contamination');
export const gain = sourceSwitch('gain');
export const offset = sourceSwitch('offset');
export const held = sourceSwitch('intensityJitter');
export const device = sourceSwitch('intensityScale');

export default [
  prose`
    What is switched off here counts as exact in all that
    follows; where its size comes from stands with its slider
    above.`,
  [
    repeatability,
    rounding,
    delay,
    contamination,
    gain,
    offset,
    held,
    device,
  ],
];

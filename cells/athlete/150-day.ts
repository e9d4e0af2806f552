import { conditionSwitch, prose } from '#hourline';

export const fasting = conditionSwitch('fasting');
export const lowCarbohydrate = conditionSwitch(
  'low-carbohydrate',
);
export const hardDays = conditionSwitch('hard-days');
export const heat = conditionSwitch('heat');
export const illness = conditionSwitch('illness');
export const caffeine = conditionSwitch('caffeine');

export default [
  prose`
    ## Was anything unusual on the day?
    Food, rest, heat and health move lactate without any
    change of fitness.`,
  [fasting, lowCarbohydrate],
  [hardDays, heat],
  [illness, caffeine],
];

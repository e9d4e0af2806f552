import {
  beforeChoice,
  betweenRepsChoice,
  prose,
  reserveChoice,
  restField,
  steadyLactateField,
} from '#hourline';

export const restMinutes = restField(2);
export const between = betweenRepsChoice('active');
export const reserve = reserveChoice('three or more');
export const before = beforeChoice('none');
export const steadyLactate = steadyLactateField(null);

export default [
  prose`What the table does not say.`,
  [restMinutes, between, reserve, before, steadyLactate],
];

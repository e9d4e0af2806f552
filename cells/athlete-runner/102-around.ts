import {
  beforeChoice,
  betweenRepsChoice,
  numberField,
  prose,
  reserveChoice,
} from '#hourline';

export const restMinutes = numberField({
  label: 'Rest between reps',
  unit: 'min',
  min: 0,
  max: 30,
  step: 0.5,
  value: 2,
});
export const between = betweenRepsChoice('active');
export const reserve = reserveChoice('three or more');
export const before = beforeChoice('none');
export const steadyLactate = numberField({
  label: 'Lactate at the steady state, if measured in bouts',
  unit: 'mmol/L',
  min: 0.5,
  max: 15,
  step: 0.1,
  value: null,
});

export default [
  prose`What the table does not say.`,
  [restMinutes, between, reserve, before, steadyLactate],
];

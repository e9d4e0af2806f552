import { numberField, prose } from '#hourline';
import { display } from './25-readings.ts';

export const minutes = numberField({
  label: 'Length of the planned session',
  unit: 'min',
  min: 1,
  max: 1440,
  value: 90,
});
export const at = numberField({
  label: 'Intensity, empty for the second threshold',
  unit: display.unit,
  value: null,
});

export default [
  prose`
    ## What does an hour of it take?`,
  [minutes, at],
];

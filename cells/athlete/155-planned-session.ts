import {
  prose,
  sessionIntensityField,
  sessionLengthField,
} from '#hourline';
import { display } from './25-readings.ts';

export const minutes = sessionLengthField(90);
export const at = sessionIntensityField(display);

export default [
  prose`
    ## What does an hour of it take?`,
  [minutes, at],
];

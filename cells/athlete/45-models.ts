import { prose, showModels, usualErrors } from '#hourline';
import { meter } from './15-protocol.ts';
import { display, readings } from './25-readings.ts';

export default [
  prose`
    ## Would another curve do?
    Two questions for every curve. Does it predict a reading
    it has not seen? And does it miss the readings by more
    than the meter can explain? A curve that touches every
    reading answers neither.`,
  showModels(readings, {
    display,
    error: usualErrors(meter.value),
  }),
];

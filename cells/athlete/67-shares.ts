import { prose, showShares, usableReadings } from '#hourline';
import { display, readings, test } from './25-readings.ts';
import { given, sampling } from './65-sensitivity.ts';

const { toExhaustion, lastCredited } = readings;
const treated = (lastStage: 'dropped' | 'nominal') =>
  usableReadings(test, { lastStage, toExhaustion });

export default [
  prose`
    ### Where the spread comes from
    The meter, the hands, the machine, and the choices of
    whoever reads the test. What has a large share is worth an
    effort; the rest is not.`,
  showShares(sampling, readings, {
    ...given,
    lastStages: lastCredited
      ? [treated('dropped'), treated('nominal')]
      : [],
    display,
  }),
];

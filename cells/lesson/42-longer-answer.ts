import { folded, prose, showStageLengths } from '#hourline';
import { athlete } from './12-athlete.ts';
import { protocol } from './20-test.ts';
import { follow } from './40-longer.ts';

export default [
  showStageLengths(athlete, {
    protocol,
    method: follow.value,
    minutes: [1, 3, 5, 8],
  }),
  folded(
    'Answer',
    prose`
      Blood lags behind muscle. When a stage is short, blood
      is read before it has caught up with the intensity: the
      curve lies too far to the right, and any fixed level is
      reached late. The longer the stage, the further the
      curve moves to the left. Dmax looks at the *shape*
      between the ends; the shape changes less than the
      place.

      So 4 mmol/L is no property of the athlete alone. It was
      the average of a group on stages of a certain length
      (Heck et al. 1985: 4.0 for 5-min stages, about 3.5 for
      3-min stages on a treadmill; from memory). Compare only
      tests with the same stages.`,
  ),
];

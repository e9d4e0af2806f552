import { folded, prose, showAbove } from '#hourline';
import { athlete } from './12-athlete.ts';
import * as plan from './70-above.ts';

export default [
  showAbove(athlete, {
    shares: [0.95, 1, 1.05, 1.1],
    reps: 4,
    repMinutes: plan.repMinutes.value,
    restMinutes: plan.restMinutes.value,
  }),
  folded(
    'Answer',
    prose`
      Every effort starts from rest, and lactate takes
      minutes to come up. In the first two minutes the four
      lines lie together: what is felt then is the start, not
      the intensity. Then they part. Below the MLSS a line
      bends to its level. Above, it climbs on, and every
      later rep begins high. The bill comes late; at 110 % it
      ends the session.

      Look at the level, not only at the drift: here the reps
      at 105 % end nearly as high as one another, and all are
      too hard. So take a reading at the end of the second
      and of the last rep, not before minute six, and keep
      something in reserve: a session that could have gone on
      for another rep was not too hard.

      From *just right* to *too hard* it is a few per cent,
      and that is what many a method is off by. This is why
      bias matters.`,
  ),
];

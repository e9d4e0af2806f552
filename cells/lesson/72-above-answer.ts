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
      minutes to come up. In the first minutes all four are
      close together, and the legs tell little. Below the
      steady state the line then bends to its level. Above,
      it goes on, and each rep begins where the last one left
      off; the bill comes in the second half.

      So feeling in the first rep does not decide it. Take a
      reading at the end of the second and of the last rep,
      not before minute six; and leave reserve: a session
      that could have gone on for another rep was not too
      hard.

      In people the difference between steady and not steady
      is a few per cent of power, which is about what a
      method's bias is. That is why bias matters.`,
  ),
];

import { lessonAnswer, showAbove } from '#hourline';
import { athlete } from './12-athlete.ts';
import * as plan from './70-above.ts';

export default [
  showAbove(athlete, {
    shares: [0.95, 1, 1.05, 1.1],
    reps: 4,
    repMinutes: plan.repMinutes.value,
    restMinutes: plan.restMinutes.value,
  }),
  lessonAnswer('above the MLSS'),
];

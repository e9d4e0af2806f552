import {
  nextSession,
  showNextSession,
  verdictBefore,
} from '#hourline';
import { display } from './25-readings.ts';
import { error } from './62-errors.ts';
import { before } from './102-around.ts';
import { context, review, threshold } from './105-review.ts';
import { meter, stay } from './107-plan.ts';

export const plan = nextSession({
  threshold,
  review,
  before: verdictBefore(before.value),
  restMinutes: context.restMinutes,
  error,
  stay: stay.value / 100,
});

export default showNextSession(plan, {
  display,
  meter: meter.value,
});

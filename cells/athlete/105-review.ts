import {
  prose,
  reviewSession,
  secondThresholdOf,
  sessionContext,
  sessionIn,
  showSession,
} from '#hourline';
import { sport } from './10-athlete.ts';
import {
  display,
  heartRates,
  readings,
} from './25-readings.ts';
import { error } from './62-errors.ts';
import { sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';
import { second } from './72-chosen.ts';
import { session } from './100-session.ts';
import * as around from './102-around.ts';

export const threshold = secondThresholdOf(
  sampling,
  lt2.value,
  {
    lt1: lt1.value,
    stageMinutes: readings.stageMinutes,
    steadyLactate: around.steadyLactate.value,
    heartRates,
  },
);
export const context = sessionContext(around);
export const done = sessionIn(session.value, {
  sport: sport.value,
});
export const review =
  done && reviewSession(done, context, threshold, { error });

export default [
  prose`## Was it at threshold?`,
  showSession(done, review, { display, second }),
];

import { compareWith } from '#hourline';
import { lastStage } from './15-protocol.ts';
import { stages } from './20-stages.ts';
import { readings, test } from './25-readings.ts';
import { curve, reading } from './40-curve.ts';
import { sampling } from './65-sensitivity.ts';
import * as one from './140-earlier.ts';
import * as two from './142-another.ts';
import { own } from './146-own-repeats.ts';

export const now = {
  name: 'This test',
  readings,
  sampling,
  curve,
};
const latest = {
  ...now,
  test,
  stages,
  lastStage: lastStage.value,
  options: reading,
  own,
};
export const compared = [one, two].flatMap(
  (controls, i) => compareWith(latest, controls, i + 1) ?? [],
);

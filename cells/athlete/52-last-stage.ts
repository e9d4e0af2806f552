import {
  prose,
  showLastStage,
  wentToExhaustion,
} from '#hourline';
import { effort } from './15-protocol.ts';
import { display, test } from './25-readings.ts';
import { reading } from './40-curve.ts';
import { sampling } from './65-sensitivity.ts';

export default [
  prose`
    ### The last stage
    Some methods hang on where the test ended. When its last
    stage was not finished, they change with what it counts
    for; the choice is made with the protocol above.`,
  showLastStage(test, {
    ...reading,
    toExhaustion: wentToExhaustion(effort.value),
    display,
    sampling,
  }),
];

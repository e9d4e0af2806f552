import { lessonAnswer, showStageLengths } from '#hourline';
import { athlete } from './12-athlete.ts';
import { protocol } from './20-test.ts';
import { follow } from './40-longer.ts';

export default [
  showStageLengths(athlete, {
    protocol,
    method: follow.value,
    minutes: [1, 3, 5, 8],
  }),
  lessonAnswer('stage length'),
];

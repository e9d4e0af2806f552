import { lessonAnswer, showOneReading } from '#hourline';
import { test } from './20-test.ts';
import { stages } from './60-reading.ts';

export default [
  showOneReading(test, stages),
  lessonAnswer('one reading'),
];

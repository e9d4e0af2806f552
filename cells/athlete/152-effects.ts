import { conditionsOf, showDay } from '#hourline';
import { test } from './25-readings.ts';
import * as day from './150-day.ts';

export const conditions = conditionsOf(day);

export default showDay(conditions, test);

import {
  answerOf,
  figures,
  folded,
  methodCard,
  notice,
  prose,
  sayOrder,
  thresholdFigure,
  valuesTable,
} from '#hourline';
import { display, test } from './25-readings.ts';
import { sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';

export const first = answerOf(sampling, lt1.value);
export const second = answerOf(sampling, lt2.value);

export const order = sayOrder(first, second);

export default [
  figures(
    thresholdFigure('LT1', first, display),
    thresholdFigure('LT2', second, display),
  ),
  order === ''
    ? null
    : notice('caution', 'In reverse order', order),
  valuesTable(test, [first, second], { display }),
  folded(
    'What these two methods claim',
    prose`${methodCard(lt1.value)}`,
    prose`${methodCard(lt2.value)}`,
  ),
];

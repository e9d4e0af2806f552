import type { Construction } from './construction.ts';
import { Answer } from './methods/answer.ts';
import { methodById } from './methods/index.ts';
import type { MethodOptions } from './methods/method.ts';
import { PreparedMethods, withDefaults } from './preparedMethods.ts';
import type { Readings } from './stepTest.ts';

/**
 * How a method finds its answer on these readings, as marks that one chart draws for every method. A method that
 * refuses shows what there is: its readings, its curve, the level that was never reached.
 */
export function constructionOf(
  readings: Readings,
  method: string,
  options: Partial<MethodOptions> = {},
): Construction {
  const chosen = withDefaults(options);
  const prepared = new PreparedMethods(readings, [methodById(method)], chosen);
  const answer = new Answer();
  prepared.fit(readings.y);
  prepared.answer(0, readings.y, answer);
  const { curve } = prepared.entries[0]!;
  const situation = { readings, curve, options: chosen };
  return methodById(method).construct(answer.code === null ? answer : null, situation);
}

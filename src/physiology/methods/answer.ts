import type { RefusalCode } from '../refusalCodes.ts';

/**
 * What an estimator writes to; one is used from draw to draw so that nothing is allocated. `code` null means that `x`
 * (intensity) and `lactate` hold an answer inside the tested range.
 */
export class Answer {
  x: number = NaN;
  lactate: number = NaN;
  code: RefusalCode | null = null;
}

/** Write an answer into the slot. */
export function give(answer: Answer, x: number, lactate: number): void {
  answer.x = x;
  answer.lactate = lactate;
  answer.code = null;
}

/** Write a refusal into the slot. */
export function refuse(answer: Answer, code: RefusalCode): void {
  answer.x = NaN;
  answer.lactate = NaN;
  answer.code = code;
}

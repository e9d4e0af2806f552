import type { RefusalCode } from '../refusal.ts';
import type { Answer } from './method.ts';

/** A slot that a method writes its answer into: no allocation a draw. */
export const emptyAnswer = (): Answer => ({ x: Number.NaN, lactate: Number.NaN, code: null });

/** Write an answer into the slot. */
export function give(answer: Answer, x: number, lactate: number): void {
  answer.x = x;
  answer.lactate = lactate;
  answer.code = null;
}

/** Write a refusal into the slot. */
export function refuse(answer: Answer, code: RefusalCode): void {
  answer.x = Number.NaN;
  answer.lactate = Number.NaN;
  answer.code = code;
}

/** Why a method may give no answer for a test; `refusal.ts` has the words. */
export type RefusalCode =
  | 'E_POINTS'
  | 'E_NOT_REACHED'
  | 'E_ALREADY_ABOVE'
  | 'E_NO_RISE'
  | 'E_NO_MIN'
  | 'E_EDGE'
  | 'E_NOT_CONVEX'
  | 'E_SUBMAX'
  | 'E_NO_RECOVERY'
  | 'E_NO_RETURN'
  | 'E_NO_HYPERLACT'
  | 'E_PROTOCOL'
  | 'E_SCALE'
  | 'E_SINGULAR';

/** Every code, in the order of their numbers in columns of draws, which begin at 1: 0 there means answered. */
export const REFUSAL_CODES: RefusalCode[] = [
  'E_POINTS',
  'E_NOT_REACHED',
  'E_ALREADY_ABOVE',
  'E_NO_RISE',
  'E_NO_MIN',
  'E_EDGE',
  'E_NOT_CONVEX',
  'E_SUBMAX',
  'E_NO_RECOVERY',
  'E_NO_RETURN',
  'E_NO_HYPERLACT',
  'E_PROTOCOL',
  'E_SCALE',
  'E_SINGULAR',
];

/** The number of a code in columns of draws. */
export function codeNumber(code: RefusalCode): i32 {
  return REFUSAL_CODES.indexOf(code) + 1;
}

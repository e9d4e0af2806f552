/** Why a method gives no answer for this test. The codes are those of the project's method notes. */
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

export interface Refusal {
  code: RefusalCode;
  /** One sentence for the reader, values filled in. */
  reason: string;
}

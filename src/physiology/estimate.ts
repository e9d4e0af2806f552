import type { Claim } from './methods/method.ts';
import type { Refusal } from './refusal.ts';
import type { CurveId } from './stepTest.ts';

/** What one method says about one test, before sampling error (src/physiology/samplingError.ts adds it). */
export type Estimate =
  | {
      method: string;
      claim: Claim;
      curve: CurveId | null;
      /** W or km/h, unrounded. */
      intensity: number;
      /** mmol/L on the curve the method read. */
      lactate: number;
      /** bpm by interpolation between completed stages; null when it cannot be told. */
      heartRate: number | null;
      warnings: string[];
      refused?: undefined;
    }
  | { method: string; claim: Claim; curve: CurveId | null; refused: Refusal };

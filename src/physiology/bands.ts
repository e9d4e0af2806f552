import type { HeartRates } from './heartRate.ts';
import { heartRateAt } from './heartRate.ts';
import { methodById } from './methods/index.ts';
import { type CensoredDraws, censoredDraws, censoredQuantile } from './sampleSummary.ts';
import type { IntervalEnd, MethodSampling, SamplingResult } from './samplingTypes.ts';
import { drawsOf, isNominal, samplingOf, thresholdDraws } from './thresholdDraws.ts';

/** Which side of the chosen thresholds a band lies on. */
type BandTone = 'below' | 'between' | 'above';

/** A band of intensity to train in. */
export interface Band {
  name: string;
  tone: BandTone;
  /** True where sampling error leaves open on which side of the threshold it lies. */
  undecided: boolean;
  /** W or km/h; null where the band has no end. */
  from: number | null;
  to: number | null;
  /** bpm, rounded into the band; null where the band has no end or heart rate cannot be told. */
  heartRateFrom: number | null;
  heartRateTo: number | null;
}

interface BandChoice {
  /** Id of the method whose answer is taken as the first threshold, and of the one taken as the second. */
  lt1: string;
  lt2: string;
  heartRates?: HeartRates;
}

/** Bands from a first and a second threshold, or the sentence that says why there are none. */
export type TrainingBands =
  | {
      /** Easy, threshold and hard, with the undecided bands between them. */
      bands: Band[];
      /** Five bands at fixed shares of the two estimates, without guard. */
      five: Band[];
      refused: null;
    }
  | { bands: null; five: null; refused: string };

/** Share of draws that may lie on the wrong side of the edge of a guarded band. */
const GUARD = 0.1;
/** Share of draws in each tail when the two thresholds are asked to lie apart. */
const APART = 0.05;

/**
 * Training bands from a chosen first and second threshold, guarded by their sampling error.
 *
 * Model     easy up to the 10 % quantile of LT1, threshold work from the 90 % quantile of LT1 to the 10 % quantile
 *           of LT2, hard from the 90 % quantile of LT2; between the quantiles undecided. Refused when the 95 %
 *           quantile of LT1 does not lie below the 5 % quantile of LT2: then no band between them is resolved
 * Units     W or km/h on the intensity scale of the draws; bpm
 * Source    three bands: Seiler & Kjerland 2006, Scand J Med Sci Sports 16:49–56; guard bands: the idea of
 *           JCGM 106:2012 (both from memory); five bands: our rule
 */
export function trainingBands(result: SamplingResult, choice: BandChoice): TrainingBands {
  const lt1 = chosen(result, choice.lt1);
  const lt2 = chosen(result, choice.lt2);
  const refused = whyNoBands(lt1, lt2);
  if (refused !== null) return { bands: null, five: null, refused };
  const heartRate = choice.heartRates ? (x: number) => heartRateAt(choice.heartRates!, x) : () => null;
  const [q1, q2] = [guardEdges(lt1), guardEdges(lt2)];
  const edges = [q1.low, q1.high, q2.low, q2.high];
  const bands = GUARDED.map((band, i) =>
    bandBetween(band, edges[i - 1] ?? null, edges[i] ?? null, heartRate),
  );
  return { bands, five: fiveBands(lt1.median, lt2.median, heartRate), refused: null };
}

/** A chosen method: its draws on the scale of the result, and nominal ones for heart rate. */
interface Chosen {
  name: string;
  sampling: MethodSampling;
  draws: CensoredDraws;
  nominal: CensoredDraws;
  median: Edge;
}

/** A limit between two bands: the intensity shown, and the nominal one that heart rate is read at. */
interface Edge {
  shown: number;
  nominal: number;
}

function chosen(result: SamplingResult, id: string): Chosen {
  const method = methodById(id);
  const column = drawsOf(result, id);
  const sampling = samplingOf(result, id);
  const nominal = censoredDraws(column, null);
  const scaled = result.intensityScale === 'true' && !isNominal(method);
  const draws = scaled ? censoredDraws(column, result.joint.scale) : nominal;
  return { name: method.name, sampling, draws, nominal, median: edgeAt({ draws, nominal }, 0.5) };
}

const edgeAt = ({ draws, nominal }: Pick<Chosen, 'draws' | 'nominal'>, p: number): Edge => ({
  shown: orNaN(censoredQuantile(draws, p)),
  nominal: orNaN(censoredQuantile(nominal, p)),
});

const orNaN = (end: IntervalEnd): number => end.value ?? Number.NaN;

const guardEdges = (of: Chosen) => ({ low: edgeAt(of, GUARD), high: edgeAt(of, 1 - GUARD) });

/** One sentence when no bands can be drawn; null when they can. */
function whyNoBands(lt1: Chosen, lt2: Chosen): string | null {
  for (const { name, sampling } of [lt1, lt2]) {
    if (sampling.estimate.refused) return `${name} gives no threshold: ${sampling.estimate.refused.reason}`;
    if (sampling.status === 'shown' || sampling.status === 'caution') continue;
    const percent = Math.round(100 * sampling.refusedShare);
    return `${name} cannot be relied on here: ${percent} % of the draws give no answer.`;
  }
  const top = edgeAt(lt1, 1 - APART).shown;
  const bottom = edgeAt(lt2, APART).shown;
  if (top < bottom) return whyNoEdges(lt1, lt2);
  if (lt1.median.shown >= lt2.median.shown)
    return `${lt1.name} lies above ${lt2.name} here: their order is reversed, so that no band lies between them.`;
  return Number.isNaN(top - bottom)
    ? beyondTested(lt1, lt2)
    : `${lt1.name} and ${lt2.name} overlap within their sampling error: no band between them can be told apart.`;
}

const beyondTested = (lt1: Chosen, lt2: Chosen): string =>
  `The range of ${lt1.name} or ${lt2.name} reaches beyond the tested intensities.`;

/** Thresholds that lie apart may still have an outer edge that the test does not reach: then a band has no end. */
function whyNoEdges(lt1: Chosen, lt2: Chosen): string | null {
  const outer = guardEdges(lt1).low.shown + guardEdges(lt2).high.shown;
  return Number.isNaN(outer) ? beyondTested(lt1, lt2) : null;
}

type BandKind = Pick<Band, 'name' | 'tone' | 'undecided'>;

const GUARDED: readonly BandKind[] = [
  { name: 'Easy', tone: 'below', undecided: false },
  { name: 'Easy or threshold', tone: 'between', undecided: true },
  { name: 'Threshold', tone: 'between', undecided: false },
  { name: 'Threshold or hard', tone: 'above', undecided: true },
  { name: 'Hard', tone: 'above', undecided: false },
];

function bandBetween(
  kind: BandKind,
  from: Edge | null,
  to: Edge | null,
  heartRate: (x: number) => number | null,
): Band {
  const bpm = (edge: Edge | null) => (edge === null ? null : heartRate(edge.nominal));
  const [low, high] = [bpm(from), bpm(to)];
  return {
    ...kind,
    from: from?.shown ?? null,
    to: to?.shown ?? null,
    heartRateFrom: low === null ? null : Math.ceil(low),
    heartRateTo: high === null ? null : Math.floor(high),
  };
}

/** Upper ends of the five bands: share of which threshold (our rule). */
const FIVE: readonly { kind: BandKind; share: number; of: 'lt1' | 'lt2' }[] = [
  { kind: { name: 'I, recovery', tone: 'below', undecided: false }, share: 0.88, of: 'lt1' },
  { kind: { name: 'II, long hours', tone: 'below', undecided: false }, share: 1, of: 'lt1' },
  { kind: { name: 'III, steady', tone: 'between', undecided: false }, share: 0.97, of: 'lt2' },
  { kind: { name: 'IV, threshold', tone: 'between', undecided: false }, share: 1.03, of: 'lt2' },
  { kind: { name: 'V, hard intervals', tone: 'above', undecided: false }, share: Infinity, of: 'lt2' },
];

function fiveBands(lt1: Edge, lt2: Edge, heartRate: (x: number) => number | null): Band[] {
  const ends = FIVE.map(({ share, of }) => {
    const threshold = of === 'lt1' ? lt1 : lt2;
    if (share === Infinity) return null;
    return { shown: share * threshold.shown, nominal: share * threshold.nominal };
  });
  return FIVE.map(({ kind }, i) => bandBetween(kind, ends[i - 1] ?? null, ends[i]!, heartRate));
}

/** Chance that an intensity lies below LT1, between the thresholds, or above LT2. */
export interface BandProbabilities {
  below: number;
  between: number;
  above: number;
}

/**
 * Chances of the three bands at one intensity, by the joint draws of both thresholds. Draws in which one of them
 * gives no answer are left out, those beyond the tested range count as beyond. Null outside the tested range, and where
 * the two estimates lie in reverse order: then no intensity is between them.
 */
export function bandProbabilities(
  result: SamplingResult,
  { lt1, lt2 }: Pick<BandChoice, 'lt1' | 'lt2'>,
  intensity: number,
): BandProbabilities | null {
  const [first, second] = [thresholdDraws(result, lt1), thresholdDraws(result, lt2)];
  if (intensity < result.lo || intensity > result.hi || areReversed(result, lt1, lt2)) return null;
  const counts = { below: 0, between: 0, above: 0 };
  for (let d = 0; d < result.joint.count; d++) {
    const [t1, t2] = [first[d]!, second[d]!];
    if (Number.isNaN(t1) || Number.isNaN(t2)) continue;
    if (intensity < t1) counts.below++;
    else if (intensity > t2) counts.above++;
    else counts.between++;
  }
  const all = counts.below + counts.between + counts.above;
  if (all === 0) return null;
  return { below: counts.below / all, between: counts.between / all, above: counts.above / all };
}

/** Whether the estimate of the first threshold lies at or above that of the second: one of them must be wrong. */
export function areReversed(result: SamplingResult, lt1: string, lt2: string): boolean {
  const [first, second] = [samplingOf(result, lt1).estimate, samplingOf(result, lt2).estimate];
  return !first.refused && !second.refused && first.intensity >= second.intensity;
}

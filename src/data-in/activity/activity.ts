import { InputError } from '../../base/inputError.ts';
import type { Sport } from '../../base/units.ts';
import { QUANTITIES } from '../quantities.ts';

/** A span of a recording, s from its start. */
export interface Span {
  start: number;
  end: number;
}

/** What a device recorded, whatever file it came in. Missing values are NaN. */
export interface Activity {
  sport: Sport | null;
  /** Start, s since 1970 (UTC). */
  start: number;
  /** Of each sample, from the start, strictly ascending. */
  seconds: Float64Array;
  /** W; null when no sample has any, as with the others. */
  power: Float64Array | null;
  /** km/h. */
  speed: Float64Array | null;
  /** bpm. */
  heartRate: Float64Array | null;
  /** Per minute, of one leg or of the crank. */
  cadence: Float64Array | null;
  /** In their order; they may leave parts out. */
  laps: Span[];
  /** While the clock of the device stood still. */
  pauses: Span[];
  /** What was left out or had to be decided, in sentences. */
  notes: string[];
}

/** One sample as a file gives it; NaN where it says nothing. */
export interface Sample {
  /** s since 1970. */
  time: number;
  power: number;
  /** km/h. */
  speed: number;
  heartRate: number;
  cadence: number;
  /** m from the start. */
  distance: number;
  /** Degrees. */
  latitude: number;
  longitude: number;
}

/** A sample of which nothing is known yet: NaN in every field, which a reader overwrites. */
export const noSample = (): Sample => ({
  time: NaN,
  power: NaN,
  speed: NaN,
  heartRate: NaN,
  cadence: NaN,
  distance: NaN,
  latitude: NaN,
  longitude: NaN,
});

/** Four days at a sample a second. */
const MOST_SAMPLES = 350_000;
/** Longest recording, s. */
const LONGEST = 4 * 86_400;
/** A speed from distances or positions is taken over as many seconds at least, for both are coarse (our rule). */
const SPEED_SECONDS = 5;
/** Earth's mean radius, m (IUGG). */
const EARTH_RADIUS = 6_371_008.8;

type Measured = 'power' | 'speed' | 'heartRate' | 'cadence';
/** Lowest and highest value that a sensor can mean; 0 W and 0 km/h are measurements, a pulse of 0 is none. */
const RANGES: Record<Measured, readonly [number, number]> = {
  power: [0, QUANTITIES.power.range[1]],
  speed: [0, 120],
  heartRate: QUANTITIES.heartRate.range,
  cadence: [0, 254],
};
const WORDS: Record<Measured, string> = {
  power: 'power',
  speed: 'speed',
  heartRate: 'heart rate',
  cadence: 'cadence',
};

/** Distance between two positions on a sphere, m. */
function metresBetween(a: Sample, b: Sample): number {
  const radians = Math.PI / 180;
  const half = (degrees: number) => Math.sin((degrees * radians) / 2) ** 2;
  const across = Math.cos(a.latitude * radians) * Math.cos(b.latitude * radians);
  const chord = half(b.latitude - a.latitude) + across * half(b.longitude - a.longitude);
  return 2 * EARTH_RADIUS * Math.asin(Math.min(1, Math.sqrt(chord)));
}

/** Laps that end up to this long before the next one begins follow on it, s: some files tell a lap by its last sample. */
const LAP_SLACK = 3;

const joined = (laps: readonly Span[], length: number): Span[] =>
  laps.map(({ start, end }, i) => {
    const next = laps[i + 1]?.start ?? length;
    return { start, end: next > end && next - end <= LAP_SLACK ? next : end };
  });

const counted = (count: number, word: string) => `${count} ${word}${count === 1 ? '' : 's'}`;

/** Gathers what a file says and makes a recording of it. */
export class ActivityBuilder {
  sport: Sport | null = null;
  readonly notes: string[] = [];
  readonly #file: string;
  readonly #samples: Sample[] = [];
  readonly #laps: Span[] = [];
  readonly #pauses: Span[] = [];

  constructor(file: string) {
    this.#file = file;
  }

  /** Samples may come in any order. */
  add(sample: Sample): void {
    if (this.#samples.length >= MOST_SAMPLES)
      throw this.#fault(`over ${MOST_SAMPLES} samples; expected one session`);
    this.#samples.push(sample);
  }

  /** Times in s since 1970. */
  lap(start: number, end: number): void {
    if (end > start && this.#laps.length < MOST_SAMPLES) this.#laps.push({ start, end });
  }

  pause(start: number, end: number): void {
    if (end > start && this.#pauses.length < MOST_SAMPLES) this.#pauses.push({ start, end });
  }

  #fault(why: string): InputError {
    return new InputError(`${this.#file}: ${why}`, { file: this.#file });
  }

  finish(): Activity {
    const samples = this.#inOrder();
    const start = samples[0]!.time;
    const length = samples.at(-1)!.time - start;
    if (length > LONGEST)
      throw this.#fault(`a recording over ${(length / 86_400).toFixed(1)} days; expected one session`);
    this.#addSpeeds(samples);
    // The last sample stands for a second of its own.
    const spans = (list: readonly Span[]) =>
      list
        .map((span) => ({
          start: Math.max(0, span.start - start),
          end: Math.min(length + 1, span.end - start),
        }))
        .filter((span) => span.end > span.start)
        .sort((a, b) => a.start - b.start);
    return {
      sport: this.sport,
      start,
      seconds: Float64Array.from(samples, ({ time }) => time - start),
      power: this.#column(samples, 'power'),
      speed: this.#column(samples, 'speed'),
      heartRate: this.#column(samples, 'heartRate'),
      cadence: this.#column(samples, 'cadence'),
      laps: joined(spans(this.#laps), length + 1),
      pauses: spans(this.#pauses),
      notes: this.notes,
    };
  }

  /** Samples with a time, ascending; of several at one time the last counts. */
  #inOrder(): Sample[] {
    const timed = this.#samples.filter(({ time }) => Number.isFinite(time));
    const without = this.#samples.length - timed.length;
    if (without > 0) this.notes.push(`Left out: ${counted(without, 'sample')} without a time.`);
    if (timed.length < 2)
      throw this.#fault(
        `${timed.length === 0 ? 'no samples' : 'one sample'} with a time; expected a recording`,
      );
    const isSorted = timed.every(({ time }, i) => i === 0 || time >= timed[i - 1]!.time);
    if (!isSorted) {
      this.notes.push('Samples were not in the order of their times and have been sorted.');
      timed.sort((a, b) => a.time - b.time);
    }
    const single = timed.filter(({ time }, i) => time !== timed[i + 1]?.time);
    if (single.length < timed.length)
      this.notes.push(`Left out: ${counted(timed.length - single.length, 'sample')} at the time of another.`);
    if (single.length < 2) throw this.#fault('all samples at one time; expected a recording');
    return single;
  }

  /** Speed from distance, else from positions, when nothing recorded it. */
  #addSpeeds(samples: Sample[]): void {
    if (samples.some(({ speed }) => !Number.isNaN(speed))) return;
    const byDistance = samples.some(({ distance }) => !Number.isNaN(distance));
    const step = byDistance ? (a: Sample, b: Sample) => b.distance - a.distance : metresBetween;
    let from = 0;
    let metres = 0;
    let added = false;
    for (let i = 1; i < samples.length; i++) {
      const moved = step(samples[i - 1]!, samples[i]!);
      metres += Number.isNaN(moved) ? 0 : moved;
      const seconds = samples[i]!.time - samples[from]!.time;
      if (seconds < SPEED_SECONDS) continue;
      const known = !Number.isNaN(moved) && metres >= 0;
      for (let j = from + 1; j <= i; j++) samples[j]!.speed = known ? (3.6 * metres) / seconds : NaN;
      added ||= known;
      from = i;
      metres = 0;
    }
    // The first sample and the few after the last full stretch go as fast as those beside them.
    samples[0]!.speed = samples[1]!.speed;
    for (let j = from + 1; j < samples.length; j++) samples[j]!.speed = samples[from]!.speed;
    if (added) this.notes.push(`Speed was worked out from ${byDistance ? 'distance' : 'positions'}.`);
  }

  #column(samples: readonly Sample[], name: Measured): Float64Array | null {
    const [low, high] = RANGES[name];
    let impossible = 0;
    const values = Float64Array.from(samples, (sample) => {
      const value = sample[name];
      if (Number.isNaN(value)) return NaN;
      if (value >= low && value <= high) return value;
      if (!(name === 'heartRate' && value === 0)) impossible++;
      return NaN;
    });
    if (impossible > 0)
      this.notes.push(
        `Left out: ${counted(impossible, 'value')} of ${WORDS[name]} outside ${low} to ${high}.`,
      );
    return values.every((value) => Number.isNaN(value)) ? null : values;
  }
}

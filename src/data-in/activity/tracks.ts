/** Recordings in the TCX and GPX formats, both XML; read with saxen (MIT). */
import { InputError } from '../../base/inputError.ts';
import type { Sport } from '../../base/units.ts';
import { walkXml, xmlText } from '../xml.ts';
import { type Activity, ActivityBuilder, noSample, type Sample } from './activity.ts';

/** s since 1970; NaN for what is no time. */
const secondsOf = (text: string) => Date.parse(text.trim()) / 1000;
const numberOf = (text: string) => (/^\s*[-+]?\d*\.?\d+(e[-+]?\d+)?\s*$/i.test(text) ? Number(text) : NaN);

const SPORTS: [Sport, RegExp][] = [
  ['cycling', /bik|cycl|ride/i],
  ['running', /run/i],
  ['rowing', /row/i],
];
const sportOf = (text: string | undefined): Sport | null =>
  SPORTS.find(([, words]) => words.test(text ?? ''))?.[0] ?? null;

/** What an element of a point says, by its name without a prefix; extensions of several makers use the same few. */
const POINT: Record<string, (sample: Sample, text: string) => void> = {
  time: (sample, text) => {
    sample.time = secondsOf(text);
  },
  distancemeters: (sample, text) => {
    sample.distance = numberOf(text);
  },
  latitudedegrees: (sample, text) => {
    sample.latitude = numberOf(text);
  },
  longitudedegrees: (sample, text) => {
    sample.longitude = numberOf(text);
  },
  // m/s in both formats.
  speed: (sample, text) => {
    sample.speed = 3.6 * numberOf(text);
  },
  ...same(['watts', 'power', 'powerinwatts'], 'power'),
  ...same(['cadence', 'cad', 'runcadence'], 'cadence'),
  ...same(['hr', 'heartrate'], 'heartRate'),
};

function same(names: string[], field: 'power' | 'cadence' | 'heartRate') {
  const set = (sample: Sample, text: string) => {
    sample[field] = numberOf(text);
  };
  return Object.fromEntries(names.map((name) => [name, set]));
}

/** Walks through the points of a track; both formats differ only in the names around them. */
class TrackReader {
  readonly builder: ActivityBuilder;
  #sample: Sample | null = null;
  #last = NaN;
  /** Of the track or segment before, while no point of the next one has come. */
  #broken = NaN;
  #lap = { start: NaN, seconds: NaN };
  #inHeartRate = false;
  #text = '';

  constructor(file: string) {
    this.builder = new ActivityBuilder(file);
  }

  open(name: string, attribute: (name: string) => string | undefined): void {
    this.#text = '';
    if (name === 'Trackpoint') this.#sample = noSample();
    else if (name === 'trkpt') {
      const [latitude, longitude] = [numberOf(attribute('lat') ?? ''), numberOf(attribute('lon') ?? '')];
      this.#sample = { ...noSample(), latitude, longitude };
    } else if (name === 'Activity') this.builder.sport ??= sportOf(attribute('Sport'));
    else if (name === 'Lap') this.#lap = { start: secondsOf(attribute('StartTime') ?? ''), seconds: NaN };
    else if (name === 'HeartRateBpm') this.#inHeartRate = true;
  }

  text(text: string): void {
    if (this.#text.length < 100) this.#text += text;
  }

  close(name: string): void {
    if (name === 'Trackpoint' || name === 'trkpt') this.#point();
    else if (name === 'Track' || name === 'trkseg') this.#broken = this.#last;
    else if (name === 'Lap') this.#endLap();
    else if (name === 'HeartRateBpm') this.#inHeartRate = false;
    else if (this.#sample) this.#field(this.#sample, name);
    else if (name === 'TotalTimeSeconds') this.#lap.seconds = numberOf(this.#text);
    else if (name === 'type') this.builder.sport ??= sportOf(this.#text);
  }

  /** The length of a lap leaves its pauses out, so its last point tells when it ended. */
  #endLap(): void {
    const { start, seconds } = this.#lap;
    this.builder.lap(start, this.#last > start ? this.#last : start + seconds);
  }

  #field(sample: Sample, name: string): void {
    if (name === 'Value' && this.#inHeartRate) sample.heartRate = numberOf(this.#text);
    const key = name.toLowerCase();
    if (Object.hasOwn(POINT, key)) POINT[key]!(sample, this.#text);
  }

  /** The time between two tracks of a lap, or two segments, is a pause. */
  #point(): void {
    const sample = this.#sample;
    // A point within a point has been taken with the inner one.
    if (!sample) return;
    this.#sample = null;
    // The last sample before it stands for a second of its own.
    if (!Number.isNaN(this.#broken)) this.builder.pause(this.#broken + 1, sample.time);
    this.#broken = NaN;
    if (!Number.isNaN(sample.time)) this.#last = sample.time;
    this.builder.add(sample);
  }
}

/** Breaks between tracks shorter than this are the change of a lap, s (our rule). */
const LEAST_PAUSE = 3;

/**
 * A recording from a TCX or GPX file.
 *
 * Throws    InputError for damaged XML, a document type, a file without times
 */
export function readTrack(bytes: Uint8Array, file: string): Activity {
  const reader = new TrackReader(file);
  let root: string | null = null;
  walkXml(xmlText(bytes), file, {
    open: (name, attribute) => {
      root ??= name;
      if (root !== 'TrainingCenterDatabase' && root !== 'gpx')
        throw new InputError(`${file}: XML of another kind ("${root}"); expected TCX or GPX`, { file });
      reader.open(name, attribute);
    },
    close: (name) => reader.close(name),
    text: (text) => reader.text(text),
  });
  const activity = reader.builder.finish();
  return { ...activity, pauses: activity.pauses.filter(({ start, end }) => end - start >= LEAST_PAUSE) };
}

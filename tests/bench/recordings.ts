import { stretchesOf, usualAxis } from '../../src/data-in/activity/stretches.ts';
import { firstSpans } from '../../src/data-in/activity/tables.ts';
import { readAnyFile } from '../../src/data-in/readAnyFile.ts';
import { Random } from '../../src/numerics/random.ts';
import { type Measured, median, milliseconds } from './figures.ts';

const SECONDS = 4 * 3600;
/** 1 March 2026, 9:00 UTC, in s since 1970. */
const START = 1_772_355_600;
const FIT_EPOCH = 631_065_600;
const RUNS = 15;

const random = new Random(1);
/** Efforts of four minutes and two of rest, all day; a sample a second with noise. */
const samples = Array.from({ length: SECONDS }, (_, t) => {
  const level = t % 360 < 240 ? 240 : 120;
  return {
    time: START + t,
    power: Math.max(0, Math.round(level * (1 + 0.06 * random.normal()))),
    heartRate: Math.round(110 + level / 5),
    cadence: 85,
    metres: 9 * t,
  };
});

function fitFile(): Uint8Array {
  const fields = [
    [253, 4, 0x86],
    [7, 2, 0x84],
    [3, 1, 2],
    [4, 1, 2],
    [5, 4, 0x86],
  ];
  const head = [0x40, 0, 0, 20, 0, fields.length, ...fields.flat()];
  const size = head.length + SECONDS * 13;
  const bytes = new Uint8Array(14 + size + 2);
  const view = new DataView(bytes.buffer);
  bytes.set([14, 0x20, 0, 0, 0, 0, 0, 0, 0x2e, 0x46, 0x49, 0x54]);
  view.setUint32(4, size, true);
  bytes.set(head, 14);
  samples.forEach(({ time, power, heartRate, cadence, metres }, i) => {
    const at = 14 + head.length + 13 * i;
    view.setUint32(at + 1, time - FIT_EPOCH, true);
    view.setUint16(at + 5, power, true);
    bytes.set([heartRate, cadence], at + 7);
    view.setUint32(at + 9, 100 * metres, true);
  });
  return bytes;
}

const stamp = (time: number) => new Date(1000 * time).toISOString();

function tcxFile(): string {
  const points = samples.map(
    ({ time, power, heartRate, cadence, metres }) =>
      `<Trackpoint>\n<Time>${stamp(time)}</Time>\n<Position>\n<LatitudeDegrees>50.1</LatitudeDegrees>\n<LongitudeDegrees>8.1</LongitudeDegrees>\n</Position>\n<DistanceMeters>${metres}</DistanceMeters>\n<HeartRateBpm>\n<Value>${heartRate}</Value>\n</HeartRateBpm>\n<Cadence>${cadence}</Cadence>\n<Extensions>\n<e:TPX>\n<e:Watts>${power}</e:Watts>\n</e:TPX>\n</Extensions>\n</Trackpoint>`,
  );
  return `<TrainingCenterDatabase xmlns:e="e"><Activities><Activity Sport="Biking"><Lap StartTime="${stamp(START)}"><TotalTimeSeconds>${SECONDS}</TotalTimeSeconds><Track>${points.join('\n')}</Track></Lap></Activity></Activities></TrainingCenterDatabase>`;
}

function gpxFile(): string {
  const points = samples.map(
    ({ time, power, heartRate, cadence }) =>
      `<trkpt lat="${50 + (time - START) / 12_000}" lon="8.1">\n<ele>120.4</ele>\n<time>${stamp(time)}</time>\n<extensions>\n<power>${power}</power>\n<x:TrackPointExtension>\n<x:hr>${heartRate}</x:hr>\n<x:cad>${cadence}</x:cad>\n</x:TrackPointExtension>\n</extensions>\n</trkpt>`,
  );
  return `<gpx xmlns:x="x"><trk><trkseg>${points.join('\n')}</trkseg></trk></gpx>`;
}

async function measure(format: string, bytes: Uint8Array): Promise<Measured> {
  const [whole, after]: [number[], number[]] = [[], []];
  let found = 0;
  for (let run = 0; run < RUNS; run++) {
    const start = performance.now();
    const file = await readAnyFile(bytes, `four-hours.${format}`);
    if (file.kind !== 'recording') throw new Error(`${format} was not read as a recording`);
    const read = performance.now();
    const axis = usualAxis(file.activity);
    found = stretchesOf(file.activity, firstSpans(file.activity, axis).spans, { axis }).length;
    whole.push(performance.now() - start);
    after.push(performance.now() - read);
  }
  if (found < 40) throw new Error(`only ${found} stretches were found in the ${format}`);
  const megabytes = (bytes.length / 1e6).toFixed(1);
  return {
    what: `four hours of ${format}, ${megabytes} MB, to stretches (first; warm; warm once read)`,
    figure: [whole[0]!, median(whole.slice(1)), median(after.slice(1))].map(milliseconds).join(', '),
    budget: '150 ms once read',
  };
}

/** A recording of four hours at a sample a second, from its bytes to its stages, by format. */
export async function recordings(): Promise<Measured[]> {
  return [
    await measure('fit', fitFile()),
    await measure('tcx', new TextEncoder().encode(tcxFile())),
    await measure('gpx', new TextEncoder().encode(gpxFile())),
  ];
}

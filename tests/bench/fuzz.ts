// `npx tsx tests/bench/fuzz.ts [COUNT] [SEED]`: changed files of the corpus through every reader, 100,000 unless told otherwise.
// Ends with an error for the first that gives neither a result nor a refusal in a sentence, takes over a second of CPU time, or
// lets the memory grow; the number it names makes it again.
import { unzipSync } from 'fflate';
import { Random } from '../../src/numerics/random.ts';
import { corpus, mutated, readEverything } from '../data-in/mutations.ts';

const [count, seed] = [Number(process.argv[2] ?? 100_000), Number(process.argv[3] ?? 1)];
/** CPU time of one file, ms, and memory of the process, MB. */
const LIMIT = { time: 1000, memory: 1500 };

const files = corpus().map((file) => ({
  ...file,
  parts: file.name.endsWith('.xlsx') ? unzipSync(file.bytes) : null,
}));
const counts = { table: 0, recording: 0, refused: 0 };
let [slowest, largest] = [0, 0];
const cpu = () => process.cpuUsage().user / 1000;
const start = performance.now();
for (let i = 0; i < count; i++) {
  const { name, bytes, parts } = files[i % files.length]!;
  // Each input has a seed of its own, so that any of them can be made again.
  const changed = mutated(bytes, new Random((seed * 1_000_003 + i) >>> 0), parts);
  const before = cpu();
  try {
    counts[await readEverything(changed, name)]++;
  } catch (error) {
    console.error(`input ${i} of seed ${seed}, from ${name}`);
    throw error;
  }
  const taken = cpu() - before;
  slowest = Math.max(slowest, taken);
  if (taken > LIMIT.time) throw new Error(`input ${i} of seed ${seed}, from ${name}: ${taken.toFixed(0)} ms`);
  if (i % 1000 === 0) largest = Math.max(largest, process.memoryUsage().rss / 1e6);
  if (largest > LIMIT.memory) throw new Error(`${largest.toFixed(0)} MB after input ${i}`);
}
const seconds = (performance.now() - start) / 1000;
console.log(
  `${count} inputs in ${seconds.toFixed(0)} s: ${JSON.stringify(counts)}, slowest ${slowest.toFixed(0)} ms, ${largest.toFixed(0)} MB`,
);

import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { expect, test, vi } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { testFromRecord } from '../../src/data-in/testRecord.ts';
import { Random } from '../../src/numerics/random.ts';
import { corpus, mutated, readEverything } from './mutations.ts';

// Thousands of files; a busy machine takes its time.
vi.setConfig({ testTimeout: 120_000 });

test('2,000 changed files of the corpus give a result or a refusal in a sentence', async () => {
  const files = corpus().map((file) => ({
    ...file,
    parts: file.name.endsWith('.xlsx') ? unzipSync(file.bytes) : null,
  }));
  const random = new Random(20261125);
  const counts = { table: 0, recording: 0, refused: 0 };
  for (let i = 0; i < 2000; i++) {
    const { name, bytes, parts } = files[i % files.length]!;
    counts[await readEverything(mutated(bytes, random, parts), name)]++;
  }
  // Neither everything nor nothing gets through: the changes reach the readers.
  for (const count of Object.values(counts)) expect(count).toBeGreaterThan(50);
});

test('any bytes at all', async () => {
  await fc.assert(
    fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), async (bytes) => {
      await readEverything(bytes, 'f');
    }),
    { seed: 20261125, numRuns: 500 },
  );
});

test('any JSON is a step test or refused', () => {
  const stage = fc.dictionary(
    fc.constantFrom('power', 'speed', 'lactate', 'heartRate', 'minutes'),
    fc.jsonValue(),
  );
  const record = fc.record(
    { id: fc.jsonValue(), stages: fc.array(stage), sport: fc.jsonValue() },
    { requiredKeys: [] },
  );
  fc.assert(
    fc.property(fc.oneof(fc.jsonValue(), record), (value) => {
      try {
        testFromRecord(value);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
      }
    }),
    { seed: 20261125, numRuns: 1000 },
  );
});

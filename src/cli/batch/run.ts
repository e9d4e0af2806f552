import { availableParallelism } from 'node:os';
import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { BatchArguments } from '../arguments.ts';
import { linesOf } from './lines.ts';
import { Pool } from './pool.ts';
import { tasksIn } from './tasks.ts';

/** Tests that one thread gets at a time: enough to be worth a message, few enough to share the last ones out. */
const BLOCK = { withoutDraws: 64, withDraws: 8 };

/**
 * Answers the tests of a stream in their order as they come, on as many threads as the machine has cores. Memory does
 * not grow with the number of tests: a slow reader of the output holds up the reading of the input.
 *
 * Throws    InputError for an input that holds no tests; what is wrong with one test goes into its own line
 */
export async function runBatch(
  input: AsyncIterable<Uint8Array>,
  output: Writable,
  { args, file }: { args: BatchArguments; file: string },
): Promise<void> {
  const size = args.draws > 0 ? BLOCK.withDraws : BLOCK.withoutDraws;
  const pool = new Pool({ args, file }, availableParallelism());
  try {
    const blocks = Readable.from(tasksIn(linesOf(input), { size, file }), { highWaterMark: 1 });
    const answers = blocks.map((tasks) => pool.answer(tasks), { concurrency: pool.blocks });
    await pipeline(answers, output, { end: false });
  } finally {
    await pool.close();
  }
}

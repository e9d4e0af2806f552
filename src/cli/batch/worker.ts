import { parentPort, workerData } from 'node:worker_threads';
import { answering, type BatchOptions } from './answer.ts';
import { LineBytes } from './lineBytes.ts';
import type { Task } from './tasks.ts';

const answer = answering(workerData as BatchOptions);
const lineBytes = new LineBytes();

/** A thread that answers blocks of tests, one after the other; the main thread reads and writes. */
parentPort!.on('message', (tasks: Task[]) => {
  // Bytes are handed over, a text would be copied, and written again by the main thread.
  const bytes = lineBytes.of(tasks.map(answer));
  parentPort!.postMessage(bytes, [bytes.buffer as ArrayBuffer]);
});

import { Worker } from 'node:worker_threads';
import type { BatchOptions } from './answer.ts';
import type { Task } from './tasks.ts';

/** Threads that answer blocks of tests; one is started only when a block finds all others at work. */
export class Pool {
  readonly #options: BatchOptions;
  readonly #idle: Worker[] = [];
  readonly #all: Worker[] = [];

  constructor(options: BatchOptions) {
    this.#options = options;
  }

  /** Whoever calls keeps as many blocks under way at most as there shall be threads. */
  async answer(tasks: Task[]): Promise<Uint8Array> {
    const worker = this.#idle.pop() ?? this.#start();
    const lines = await new Promise<Uint8Array>((resolve, reject) => {
      const settle = (done: () => void) => {
        worker.off('message', answered).off('error', failed);
        done();
      };
      const answered = (value: Uint8Array) => settle(() => resolve(value));
      const failed = (error: Error) => settle(() => reject(error));
      worker.on('message', answered).on('error', failed);
      worker.postMessage(tasks);
    });
    this.#idle.push(worker);
    return lines;
  }

  #start(): Worker {
    const worker = new Worker(new URL('./thread.mjs', import.meta.url), { workerData: this.#options });
    this.#all.push(worker);
    return worker;
  }

  async close(): Promise<void> {
    await Promise.all(this.#all.map((worker) => worker.terminate()));
  }
}

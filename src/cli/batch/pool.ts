import { Worker } from 'node:worker_threads';
import type { BatchOptions } from './answer.ts';
import type { Task } from './tasks.ts';

/** Blocks that a thread has at a time: one at work and one waiting, so that it need not wait for the main thread. */
const BLOCKS_A_THREAD = 2;
/** Room for what a test leaves behind: with what Node gives it a thread spends a tenth of its time on clearing it away. */
const YOUNG_MB = 64;

interface Promised {
  resolve(lines: Uint8Array): void;
  reject(error: Error): void;
}

/** A thread and the answers that it owes, in the order in which it will give them. */
class Thread {
  readonly #worker: Worker;
  #owed: Promised[] = [];

  constructor(options: BatchOptions) {
    this.#worker = new Worker(new URL('./thread.mjs', import.meta.url), {
      workerData: options,
      resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
    });
    this.#worker.on('message', (lines: Uint8Array) => this.#owed.shift()!.resolve(lines));
    this.#worker.on('error', (error) => {
      for (const { reject } of this.#owed) reject(error);
      this.#owed = [];
    });
  }

  get blocks(): number {
    return this.#owed.length;
  }

  answer(tasks: readonly Task[]): Promise<Uint8Array> {
    return new Promise((resolve, reject) => {
      this.#owed.push({ resolve, reject });
      this.#worker.postMessage(tasks);
    });
  }

  close(): Promise<number> {
    return this.#worker.terminate();
  }
}

/** Threads that answer blocks of tests; one is started only when a block finds all others at work. */
export class Pool {
  readonly #options: BatchOptions;
  readonly #most: number;
  readonly #threads: Thread[] = [];

  constructor(options: BatchOptions, most: number) {
    this.#options = options;
    this.#most = most;
  }

  /** As many blocks as keep all threads at work; whoever calls gives no more at a time. */
  get blocks(): number {
    return BLOCKS_A_THREAD * this.#most;
  }

  answer(tasks: readonly Task[]): Promise<Uint8Array> {
    return this.#leastBusy().answer(tasks);
  }

  #leastBusy(): Thread {
    const least = Math.min(...this.#threads.map(({ blocks }) => blocks));
    if (least === 0 || this.#threads.length === this.#most)
      return this.#threads.find(({ blocks }) => blocks === least)!;
    const started = new Thread(this.#options);
    this.#threads.push(started);
    return started;
  }

  async close(): Promise<void> {
    await Promise.all(this.#threads.map((thread) => thread.close()));
  }
}

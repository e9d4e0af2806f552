import { vi } from 'vitest';

/** Waits for what must come; how soon hangs on the machine, and a slow one is not a fault. */
export const soon = <T>(look: () => T | Promise<T>): Promise<T> => vi.waitFor(look, { timeout: 20_000 });

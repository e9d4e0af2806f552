/** Compile the kernel unless it is compiled already. */
export function ensureKernel(): Promise<void>;

/** Compile the kernel unless it is compiled already. */
export function ensureKernel(): Promise<void>;
/** A source as AssemblyScript spells it. */
export function spelled(text: string): string;

/** The sentence of an error, for whoever brought what it is about. */
export const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

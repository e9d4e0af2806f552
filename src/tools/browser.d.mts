export const BROWSER_ARGS: string[];
export function findBrowser(env?: NodeJS.ProcessEnv): string | null;
export function ensureBrowser(): string;

import type { LibraryName } from '../workbook/messages.ts';

/** Addresses of the separately built parts beside index.html; put in by the build (src/tools/build.ts). */
declare const HOURLINE_PARTS: { frame: string; libraries: Record<LibraryName, string> };
/** Version in package.json; put in by the build. */
declare const HOURLINE_VERSION: string;

/** Version of Hourline, as in package.json. */
export const VERSION = HOURLINE_VERSION;

const fetched = new Map<string, Promise<string>>();

/** The document of the frame; fetched once. */
export const frameText = (): Promise<string> => fetchOnce(HOURLINE_PARTS.frame);

/** The only way to a library's text: by its name in a fixed list. */
export const libraryText = (name: LibraryName): Promise<string> => fetchOnce(HOURLINE_PARTS.libraries[name]);

function fetchOnce(file: string): Promise<string> {
  const known = fetched.get(file);
  if (known) return known;
  const text = fetchText(file);
  fetched.set(file, text);
  text.catch(() => fetched.delete(file)); // so that it can be tried again
  return text;
}

async function fetchText(file: string): Promise<string> {
  const response = await fetch(file);
  if (!response.ok) throw new Error(`${file} could not be loaded (status ${response.status})`);
  return response.text();
}

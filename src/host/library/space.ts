import { keepSetting, readSetting } from '../settings.ts';

const ASKED = 'hourline-asked-to-keep';

/** What the browser gives and grants Hourline. */
export interface Space {
  /** Bytes. */
  used: number;
  /** Bytes that may be used at most, as far as the browser tells. */
  most: number;
  /** Whether the browser promised not to clear it by itself. */
  lasting: boolean;
}

/** Null where the browser does not tell. */
export async function readSpace(): Promise<Space | null> {
  try {
    const { usage = 0, quota = 0 } = await navigator.storage.estimate();
    return { used: usage, most: quota, lasting: await navigator.storage.persisted() };
  } catch {
    return null; // old browsers and pages without TLS have no storage manager
  }
}

/** Asks the browser not to clear what is kept; false when it does not promise. */
export async function askToLast(): Promise<boolean> {
  try {
    return await navigator.storage.persist();
  } catch {
    return false;
  }
}

/** Asks by itself only once, when there is something of the reader's own to keep. */
export async function askToLastOnce(): Promise<void> {
  if (readSetting(ASKED)) return;
  keepSetting(ASKED, 'yes');
  await askToLast();
}

const UNITS = ['KB', 'MB', 'GB', 'TB'];

/** 1,234,567 bytes as “1.2 MB”. */
export function sizeInWords(bytes: number): string {
  let size = bytes / 1000;
  let unit = 0;
  while (size >= 1000 && unit < UNITS.length - 1) {
    size /= 1000;
    unit++;
  }
  return `${size < 10 ? size.toFixed(1) : Math.round(size)} ${UNITS[unit]}`;
}

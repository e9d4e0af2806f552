/** A small setting of this browser; null where there is none or storage is refused. */
export function readSetting(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/** Remembers a choice of the reader's in this browser, where that is possible. */
export function keepSetting(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // Without storage the choice lasts as long as the page; nothing of the reader's work depends on it.
  }
}

/** Forgets a setting of this browser. */
export function dropSetting(key: string): void {
  try {
    localStorage.removeItem(key);
  } catch {
    // Without storage there is none.
  }
}

/** Seconds as m:ss, as a stopwatch shows them. */
export function stopwatch(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** Seconds from m:ss or h:mm:ss, or null. */
export function readStopwatch(text: string): number | null {
  const match = /^(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)$/.exec(text.trim());
  return match ? 3600 * Number(match[1] ?? 0) + 60 * Number(match[2]) + Number(match[3]) : null;
}

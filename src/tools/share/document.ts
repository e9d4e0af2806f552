import { JSDOM } from 'jsdom';

/**
 * Gives the program a document, as a page has one: charts and results are drawn with it, and the sanitiser of the share page
 * works on it. jsdom is the implementation that the sanitiser is made safe for; others may let through what they parse
 * differently from a browser. Must be called before anything is loaded that draws.
 */
export function provideDocument(): void {
  const { window } = new JSDOM('<!doctype html><title>Hourline</title>', { pretendToBeVisual: true });
  const offered = window as Record<string, unknown>;
  const kinds = Object.getOwnPropertyNames(window).filter(
    (name) => /^[A-Z]/.test(name) && !(name in globalThis),
  );
  for (const name of ['window', 'document', 'customElements', 'getComputedStyle', ...kinds])
    Object.defineProperty(globalThis, name, { value: offered[name], configurable: true, writable: true });
}

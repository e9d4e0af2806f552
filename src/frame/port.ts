import type { CellText, Setting } from '../workbook/document.ts';
import type { FrameMessage, HostMessage, LibraryName } from '../workbook/messages.ts';

/** How long a run waits to hear that its workbook is stored; then it goes on, and the host says it is not. */
const SAVE_PATIENCE = 3000;
/** Control moves and text that has not run are posted together, at most this often: well within a second. */
const POST_INTERVAL = 300;

type Content = { cells: readonly CellText[]; settings: Record<string, Setting> };

/** The frame's side of the one connection it has: posts the workbook before it runs, fetches libraries. */
export class HostPort {
  readonly #port: MessagePort;
  readonly #content: () => Content;
  readonly #libraries = new Map<LibraryName, PromiseWithResolvers<object>>();
  readonly #awaited = new Map<number, () => void>();
  /** What the host has; null before it sent anything, when there is nothing to post either. */
  #posted: string | null = null;
  /** What ran last, or was opened. */
  #ran: string | null = null;
  #revision = 0;
  #timer: ReturnType<typeof setTimeout> | null = null;

  /** `content` is asked for at the moment of posting; `receive` gets what is not about saving or libraries. */
  constructor(port: MessagePort, content: () => Content, receive: (message: HostMessage) => void) {
    this.#port = port;
    this.#content = content;
    port.onmessage = (event: MessageEvent<HostMessage>) => this.#receive(event.data, receive);
  }

  send(message: FrameMessage): void {
    this.#port.postMessage(message);
  }

  /** Takes the present content as what the host already has. */
  opened(): void {
    this.#posted = JSON.stringify(this.#content());
    this.#ran = this.#posted;
  }

  /**
   * To be awaited before anything runs: posts the workbook if what would run is new; resolves when the host stored it, or
   * could not, or does not answer.
   */
  async save(): Promise<void> {
    const revision = this.post({ runs: true });
    if (revision === null) return;
    await new Promise<void>((resolve) => {
      const patience = setTimeout(resolve, SAVE_PATIENCE);
      this.#awaited.set(revision, () => {
        clearTimeout(patience);
        resolve();
      });
    });
    this.#awaited.delete(revision);
  }

  /** Posts the workbook soon; calls in between are answered by the same message. */
  saveSoon(): void {
    this.#timer ??= setTimeout(() => this.post(), POST_INTERVAL);
  }

  /** Posts the workbook now if it changed, or is to run and has not yet; returns the number of this version, or null. */
  post({ runs } = { runs: false }): number | null {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = null;
    const { cells, settings } = this.#content();
    const text = JSON.stringify({ cells, settings });
    if (this.#posted === null || text === (runs ? this.#ran : this.#posted)) return null;
    this.#posted = text;
    if (runs) this.#ran = text;
    this.#revision++;
    this.send({ kind: 'changed', revision: this.#revision, runs, ...JSON.parse(text) });
    return this.#revision;
  }

  /** The library's exports; the host sends the text, once. */
  library(name: LibraryName): Promise<object> {
    const known = this.#libraries.get(name);
    if (known) return known.promise;
    const library = Promise.withResolvers<object>();
    this.#libraries.set(name, library);
    this.send({ kind: 'library', name });
    return library.promise;
  }

  #evaluate(name: LibraryName, text: string): void {
    const library = this.#libraries.get(name);
    try {
      library?.resolve(evaluateLibrary(name, text));
    } catch (error) {
      library?.reject(error);
    }
  }

  #receive(message: HostMessage, receive: (message: HostMessage) => void): void {
    switch (message.kind) {
      case 'ping':
        this.send({ kind: 'pong', request: message.request });
        break;
      case 'library':
        this.#evaluate(message.name, message.text);
        break;
      case 'library-failed':
        this.#libraries.get(message.name)?.reject(new Error(message.reason));
        this.#libraries.delete(message.name); // so that it can be asked for again
        break;
      case 'saved':
      case 'save-failed':
        this.#awaited.get(message.revision)?.();
        break;
      default:
        receive(message);
        break;
    }
  }
}

/** A library is a script that sets one variable, `library`. Indirect eval keeps it out of our own scope. */
function evaluateLibrary(name: LibraryName, text: string): object {
  // biome-ignore lint/security/noGlobalEval: the frame may load no script, and the text is the host's own
  return globalThis.eval(`(() => {${text}\nreturn library;\n})()\n//# sourceURL=library:${name}`) as object;
}

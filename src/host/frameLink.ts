import { InputError } from '../base/inputError.ts';
import type { FrameMessage, HostMessage, LibraryName, SnapshotCell } from '../workbook/messages.ts';
import { frameText, libraryText } from './parts.ts';
import { readFrameMessage } from './port.ts';

/** A frame that has not answered for this long, ms, counts as hung. */
const PATIENCE = 2000;
const PING_INTERVAL = 500;
const FLUSH_PATIENCE = 1000;
const SNAPSHOT_PATIENCE = 20_000;

/** Only for the frame's own text, which the build made. */
const policy = window.trustedTypes?.createPolicy('host', { createHTML: (text) => text });

interface FrameEvents {
  /** A checked message that concerns the workbook. */
  message(message: FrameMessage): void;
  /** The frame stopped answering, or answers again. */
  answering(yes: boolean): void;
  /** A state of the workbook was refused: mostly since it holds more than the host takes in. */
  refused(): void;
  /** The frame tried to go to another page, which its policy forbids, and is lost. */
  left(): void;
}

/**
 * The sandboxed frame and the one port to it. The frame gets an origin of its own, without storage and, by its
 * policy, without network; it usually runs in a process of its own, so that a cell that never ends stops only it.
 */
export class FrameLink {
  readonly #frame = document.createElement('iframe');
  readonly #channel = new MessageChannel();
  readonly #events: FrameEvents;
  readonly #snapshots = new Map<number, (cells: SnapshotCell[]) => void>();
  readonly #flushes = new Map<number, () => void>();
  #timer: ReturnType<typeof setInterval> | undefined;
  #request = 0;
  #pinged: number | null = null;
  #answering = true;

  constructor(events: FrameEvents) {
    this.#events = events;
    this.#frame.setAttribute('sandbox', 'allow-scripts');
    this.#frame.referrerPolicy = 'no-referrer';
    this.#frame.title = 'Workbook';
    this.#channel.port1.onmessage = (event) => this.#receive(event.data);
  }

  async start(place: HTMLElement): Promise<void> {
    if (!policy) {
      throw new InputError(
        'This browser cannot keep the code of a workbook apart (it has no Trusted Types): use a current Chrome, ' +
          'Edge, Firefox or Safari',
      );
    }
    const text = await frameText();
    this.#frame.addEventListener('load', () => (this.#timer ? this.#events.left() : this.#connect()));
    this.#frame.srcdoc = policy.createHTML(text) as unknown as string;
    place.replaceChildren(this.#frame);
  }

  send(message: HostMessage): void {
    this.#channel.port1.postMessage(message);
  }

  /** Takes the keyboard into the frame: a frame may not take it of its own accord. */
  focus(): void {
    this.#frame.focus();
  }

  /** What each cell shows, as untrusted HTML. */
  snapshot(): Promise<SnapshotCell[]> {
    const request = ++this.#request;
    const { promise, resolve, reject } = Promise.withResolvers<SnapshotCell[]>();
    const late = () => reject(new Error('the workbook does not answer; stop it and try again'));
    const patience = setTimeout(late, SNAPSHOT_PATIENCE);
    this.#snapshots.set(request, resolve);
    this.send({ kind: 'snapshot', request });
    return promise.finally(() => {
      clearTimeout(patience);
      this.#snapshots.delete(request);
    });
  }

  /** Lets the frame post what was just typed; resolves when that has arrived, or after a while. */
  flush(): Promise<void> {
    const request = ++this.#request;
    const { promise, resolve } = Promise.withResolvers<void>();
    setTimeout(resolve, FLUSH_PATIENCE);
    this.#flushes.set(request, resolve);
    this.send({ kind: 'save' });
    this.send({ kind: 'ping', request }); // answered after whatever the frame has to post
    return promise.finally(() => this.#flushes.delete(request));
  }

  /** Ends whatever runs in the frame, even a loop without end. */
  stop(): void {
    clearInterval(this.#timer);
    this.#channel.port1.close();
    this.#frame.remove();
  }

  #connect(): void {
    this.#frame.contentWindow?.postMessage('hourline-port', '*', [this.#channel.port2]);
    this.#timer = setInterval(() => this.#ping(), PING_INTERVAL);
  }

  #ping(): void {
    if (document.hidden) {
      this.#pinged = null; // a page in the background may be slowed down by the browser
    } else if (this.#pinged === null) {
      this.#pinged = performance.now();
      this.send({ kind: 'ping', request: ++this.#request });
    } else if (performance.now() - this.#pinged > PATIENCE) {
      this.#setAnswering(false);
    }
  }

  #setAnswering(yes: boolean): void {
    if (yes === this.#answering) return;
    this.#answering = yes;
    this.#events.answering(yes);
  }

  #receive(data: unknown): void {
    const message = readFrameMessage(data);
    switch (message?.kind) {
      case undefined:
        if ((data as { kind?: unknown } | null)?.kind === 'changed') this.#events.refused();
        break;
      case 'pong':
        this.#pinged = null;
        this.#flushes.get(message.request)?.();
        this.#setAnswering(true);
        break;
      case 'snapshot':
        this.#snapshots.get(message.request)?.(message.cells);
        break;
      case 'library':
        void this.#sendLibrary(message.name);
        break;
      default:
        this.#events.message(message!);
        break;
    }
  }

  async #sendLibrary(name: LibraryName): Promise<void> {
    try {
      this.send({ kind: 'library', name, text: await libraryText(name) });
    } catch (error) {
      this.send({ kind: 'library-failed', name, reason: String(error) });
    }
  }
}

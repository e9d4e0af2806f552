import './lockdown.ts'; // must be first: see there
import pageStyles from '../look/page.css?inline';
import resultStyles from '../look/results.css?inline';
import tokenStyles from '../look/tokens.css?inline';
import { painted } from '../page/painted.ts';
import { WorkbookPage } from '../page/workbookPage.ts';
import * as earlyToolkit from '../toolkit/early.ts';
import { createEngine } from '../workbook/engine.ts';
import type { CellPhase, Engine } from '../workbook/engineTypes.ts';
import type { HostMessage } from '../workbook/messages.ts';
import { LateReader } from './lateReader.ts';
import { HostPort } from './port.ts';

/** What the toolkit's script needs of this one; put in by the build (src/tools/build.ts). */
declare const HOURLINE_SHARED: object;

/** How long cells run before the page paints what they have, ms. */
const SLICE = 12;

/** The frame's one workbook: its engine, the page that shows it, and the port to the host. */
class Workbook {
  readonly #page = new WorkbookPage();
  readonly #engine: Engine;
  readonly #port: HostPort;
  readonly #reader = new LateReader(() => this.#port.library('reader'));
  /** Settles when the reader lets the cells run; nothing runs before. */
  readonly #allowed = Promise.withResolvers<void>();
  /** Resolves when the workbook's cells are there. */
  #opened = Promise.resolve();
  #statusDue = false;
  /** Whether the cells were let run. */
  #started = false;
  /** The moment cells began to run, or went on after a paint. */
  #began = 0;

  constructor(port: MessagePort) {
    this.#port = new HostPort(
      port,
      () => this.#content(),
      (message) => this.#receive(message),
    );
    this.#engine = createEngine({
      read: this.#reader.read,
      beforeRead: () => this.#reader.ready(),
      libraries: {
        '#hourline': () => this.#toolkit(),
        '@observablehq/plot': () => this.#port.library('plot'),
        arquero: () => this.#port.library('arquero'),
        'd3-array': () => this.#port.library('d3-array'),
      },
      early: { '#hourline': earlyToolkit },
      onState: (state) => {
        this.#page.stateChanged(state);
        this.#postStatusSoon();
      },
      onCells: (cells) => {
        this.#page.cellsChanged(cells);
        this.#port.saveSoon();
      },
      beforeRun: async () => {
        await this.#port.save();
        await this.#allowed.promise;
        this.#postStatus(); // before a cell that may keep this page from ever saying so
        this.#began = performance.now();
      },
      onSetting: () => {
        this.#began = performance.now();
        this.#port.saveSoon();
      },
      inSight: () => this.#page.elements.inSight(),
      rest: (seen) => this.#rest(seen),
      now: () => performance.now(),
    });
    this.#page.engine = this.#engine;
    this.#page.library = (name) => this.#port.library(name);
    this.#page.addEventListener('hour-changed', () => this.#port.saveSoon());
    this.#port.send({ kind: 'ready' });
    // Hardly a workbook goes without charts. The first cells do without the whole toolkit, so it is asked for by those
    // that need it, and is no earlier than they are.
    void this.#port.library('plot');
  }

  async #toolkit(): Promise<object> {
    const make = (await this.#port.library('toolkit')) as (shared: object) => object;
    const toolkit = make(HOURLINE_SHARED);
    this.#page.toolkitNames = Object.keys(toolkit);
    return toolkit;
  }

  #content() {
    return { cells: this.#page.elements.withTyped(this.#engine.cells()), settings: this.#engine.settings() };
  }

  #receive(message: HostMessage): void {
    switch (message.kind) {
      case 'open':
        this.#opened = this.#open(message);
        break;
      case 'run':
        // The reader may say so while the parser is still on its way.
        void this.#opened.then(() => this.#runTyped());
        break;
      case 'save':
        this.#page.elements.flush();
        this.#port.post();
        break;
      case 'theme':
        showTheme(message.theme);
        break;
      case 'show-trouble':
        void this.#page.showTrouble();
        break;
      case 'snapshot':
        void this.#sendSnapshot(message.request);
    }
  }

  async #open({
    document: workbook,
    shipped,
    run,
    theme,
  }: Extract<HostMessage, { kind: 'open' }>): Promise<void> {
    showTheme(theme);
    await this.#reader.ready(workbook.cells.map((cell) => cell.text));
    this.#engine.load(workbook.cells, workbook.settings);
    this.#port.opened();
    this.#page.shipped = shipped;
    document.body.append(this.#page);
    if (run) this.#run();
  }

  /** Runs with what was typed last: an edit is taken in when the parser is there, and not before. */
  async #runTyped(): Promise<void> {
    this.#page.elements.flush();
    await this.#reader.ready();
    this.#run();
  }

  #run(): void {
    this.#allowed.resolve();
    this.#started = true;
    this.#postStatusSoon(); // an empty workbook has nothing else to say
    // The parser comes after what the reader is waiting for.
    void this.#engine.run().then(() => this.#reader.ready());
  }

  /**
   * Lets the page paint what is there, so that what changed first is not kept back by what follows from it; and while a
   * control moves, nothing runs that nobody sees.
   */
  #rest(seen: boolean): Promise<void> | null {
    const handRests = seen ? null : this.#page.hand.rests();
    if (handRests) return handRests;
    if (performance.now() - this.#began < SLICE) return null;
    return painted().then(() => {
      this.#began = performance.now();
    });
  }

  async #sendSnapshot(request: number): Promise<void> {
    this.#port.send({ kind: 'snapshot', request, cells: await this.#page.snapshot() });
  }

  #postStatusSoon(): void {
    if (this.#statusDue) return;
    this.#statusDue = true;
    requestAnimationFrame(() => this.#postStatus());
  }

  #postStatus(): void {
    this.#statusDue = false;
    const phases = this.#engine.phases();
    const count = (...of: CellPhase[]) => phases.filter((phase) => of.includes(phase)).length;
    this.#port.send({
      kind: 'status',
      started: this.#started,
      running: count('running', 'stale'),
      failed: count('failed'),
      waiting: count('waiting'),
      cells: phases.length,
    });
  }
}

function showTheme(theme: 'light' | 'dark'): void {
  document.documentElement.dataset.theme = theme;
}

function addStyles(): void {
  const style = document.createElement('style');
  style.textContent = [tokenStyles, resultStyles, pageStyles].join('\n');
  document.head.append(style);
}

/** The host hands over the port once; nobody else can: only the host has this window. */
function awaitPort(): void {
  window.addEventListener(
    'message',
    (event) => {
      if (event.source === window.parent && event.ports[0]) new Workbook(event.ports[0]);
    },
    { once: true },
  );
}

if (self.origin === 'null') {
  addStyles();
  awaitPort();
} else {
  // Opened as a page of its own it would run outside the sandbox.
  document.body.textContent = 'This file is a part of Hourline; open index.html instead.';
}

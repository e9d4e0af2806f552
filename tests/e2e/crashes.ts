import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { type BrowserContext, chromium, type Frame, type Page } from 'playwright-core';
import type { Random } from '../../src/numerics/random.ts';
import { BROWSER_ARGS, findBrowser } from '../../src/tools/browser.mjs';
import { barButton, textOf, untilStatus, workbookFrame } from './helpers.ts';
import { idOf, keep, keptWorkbook, readKept } from './kept.ts';

/** What is killed: the process of the workbook's frame, that of the page around it, or the browser with everything. */
export const VICTIMS = ['frame', 'tab', 'browser'] as const;
export type Victim = (typeof VICTIMS)[number];

/** What can be told apart of a document: the text that is typed and the slider that is moved. */
interface State {
  text: string;
  slider: number;
}

/** A state the editing came to. */
interface Step extends State {
  /** When the browser had taken the key, ms; infinite for one that was under way when everything ended. */
  taken: number;
}

export interface Crash {
  victim: Victim;
  /** Number of the stored state among those of the session; -1 when it is none of them. */
  found: number;
  /** How long before the end the first state that was lost had been reached, ms; 0 when none was. */
  lost: number;
  /** States that the session came to. */
  states: number;
}

const OPEN = "import { slider } from '#hourline';\n";
const MOVED = `${OPEN}export const x = slider({ label: 'x', min: 0, max: 9999, step: 1, value: 0 });\nexport default x;\n`;
const ADDRESS = `#${idOf(1)}`;

/** A browser in a process group of its own, with a profile that outlives it. */
export class MortalBrowser {
  readonly #profile = mkdtempSync(path.join(tmpdir(), 'hourline-crash-'));
  #process: ChildProcess | null = null;
  #context: BrowserContext | null = null;

  get context(): BrowserContext {
    return this.#context!;
  }

  async start(): Promise<void> {
    const portFile = path.join(this.#profile, 'DevToolsActivePort');
    rmSync(portFile, { force: true });
    const args = [
      '--headless',
      '--remote-debugging-port=0',
      `--user-data-dir=${this.#profile}`,
      'about:blank',
    ];
    this.#process = spawn(findBrowser()!, [...BROWSER_ARGS, ...args], { detached: true, stdio: 'ignore' });
    while (!existsSync(portFile) || !readFileSync(portFile, 'utf8').includes('\n')) await pause(20);
    const [port] = readFileSync(portFile, 'utf8').split('\n');
    const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
    this.#context = browser.contexts()[0]!;
  }

  /** Kills the browser and all its processes, as a power cut would. */
  async kill(): Promise<void> {
    const ended = new Promise((done) => this.#process!.once('exit', done));
    process.kill(-this.#process!.pid!, 'SIGKILL');
    await ended;
  }

  async end(): Promise<void> {
    await this.kill();
    rmSync(this.#profile, { recursive: true, force: true });
  }
}

/** A scripted session on one workbook, cut off at a random moment and taken up again. */
export class EditingSession {
  readonly #browser: MortalBrowser;
  readonly #url: string;
  readonly #random: Random;
  #steps: Step[] = [];

  constructor(browser: MortalBrowser, url: string, random: Random) {
    this.#browser = browser;
    this.#url = url;
    this.#random = random;
  }

  async begin(): Promise<void> {
    const page = await this.#browser.context.newPage();
    const cells = [
      { name: 'one.ts', text: "export default 'typed'; // " },
      { name: 'two.ts', text: MOVED },
    ];
    await keep(page, this.#url, [keptWorkbook(1, 'Crash test', cells)]);
    await page.close();
  }

  /** Edits, dies, comes back, and compares what is stored with what was done. */
  async crash(victim: Victim): Promise<Crash> {
    const page = await this.#browser.context.newPage();
    const { frame, state } = await this.#open(page);
    const kill = await this.#killer(victim, page, frame);
    this.#steps = [{ ...state, taken: Number.NEGATIVE_INFINITY }];
    const editing = this.#edit(page, frame).catch(() => {}); // it fails when the ground goes
    await pause(300 + 2200 * this.#random.uniform());
    const end = performance.now();
    await kill();
    const steps = this.#steps;
    await Promise.race([editing, pause(100)]);
    const stored = await this.#stored(victim, page);
    const found = steps.findLastIndex(({ text, slider }) => text === stored.text && slider === stored.slider);
    const firstLost = steps[found + 1];
    return { victim, found, lost: Math.max(0, end - (firstLost?.taken ?? end)), states: steps.length };
  }

  /** The workbook on the page as it was left: what the reader sees is what was stored. */
  async #open(page: Page): Promise<{ frame: Frame; state: State }> {
    await page.goto(this.#url + ADDRESS);
    // What died while it ran is not run unasked.
    const run = barButton(page, 'Run');
    await page.locator('hour-title-bar .status', { hasText: 'Up to date' }).or(run).waitFor();
    if (await run.isVisible()) await run.click();
    await untilStatus(page, 'Up to date');
    const frame = await workbookFrame(page);
    await frame.waitForSelector('hour-cell[data-cell="one.ts"] .cm-content');
    const text = await textOf(frame, 'one.ts');
    const slider = Number(await frame.locator('input[type=range]').inputValue());
    return { frame, state: { text, slider } };
  }

  /** Types without a pause and now and then moves the slider, for as long as there is a page. */
  async #edit(page: Page, frame: Frame): Promise<void> {
    for (;;) {
      await frame.locator('hour-cell[data-cell="one.ts"] .cm-content').focus();
      await page.keyboard.press('ControlOrMeta+End');
      // Long enough that nothing would be stored for more than a second if only pauses in typing led to it.
      for (let i = 5 + 100 * this.#random.uniform(); i > 0; i--) {
        const letter = String.fromCharCode(97 + Math.floor(26 * this.#random.uniform()));
        await this.#step({ text: this.#last.text + letter }, () => page.keyboard.insertText(letter));
        await pause(60 * this.#random.uniform());
      }
      await frame.locator('input[type=range]').focus();
      for (let i = 3; i > 0; i--) {
        await this.#step({ slider: this.#last.slider + 1 }, () => page.keyboard.press('ArrowRight'));
        await pause(60 * this.#random.uniform());
      }
    }
  }

  get #last(): Step {
    return this.#steps.at(-1)!;
  }

  async #step(change: Partial<State>, act: () => Promise<void>): Promise<void> {
    const step: Step = { ...this.#last, ...change, taken: Number.POSITIVE_INFINITY };
    this.#steps.push(step);
    await act();
    step.taken = performance.now();
  }

  async #killer(victim: Victim, page: Page, frame: Frame): Promise<() => Promise<unknown>> {
    if (victim === 'browser') return () => this.#browser.kill();
    const tools = await page.context().newCDPSession(victim === 'tab' ? page : frame);
    return async () => void tools.send('Page.crash').catch(() => {}); // nobody is left to answer
  }

  /** What the browser has kept, read by a page that runs nothing. */
  async #stored(victim: Victim, crashed: Page): Promise<State> {
    if (victim === 'browser') await this.#browser.start();
    else void crashed.close().catch(() => {});
    const page = await this.#browser.context.newPage();
    await page.goto(`${this.#url}no-such-page`);
    const [{ document }] = (await readKept(page)) as [Awaited<ReturnType<typeof readKept>>[0]];
    await page.close();
    const moved = document.settings['two.ts#x']?.value;
    return { text: document.cells[0]!.text, slider: typeof moved === 'number' ? moved : 0 };
  }
}

import type { Control } from '../view/controls.ts';
import type { CellText, Setting } from './document.ts';
import type { CellReader } from './parsedCell.ts';

/**
 * idle: loaded and never asked to run; stale: about to run, or to be found unchanged, as soon as what it reads is
 * ready; waiting: an upstream cell failed or is missing, or the reader has yet to enter something.
 */
export type CellPhase = 'idle' | 'stale' | 'running' | 'done' | 'failed' | 'waiting';

/** Why a cell has no result, or a warning about it, with its place in the text. */
export interface CellProblem {
  /** What is wrong, in a sentence. */
  message: string;
  /** What to do about it; '' when there is nothing to add. */
  hint: string;
  /** 1-based, in the cell's own text; null when the fault is not in the text. */
  line: number | null;
  column: number | null;
  /** True when nothing is wrong: the reader has yet to enter what the message asks for. */
  notYet?: true;
}

/** Everything a page needs to draw one cell. A new object whenever something changed. */
export interface CellState {
  readonly name: string;
  readonly text: string;
  readonly phase: CellPhase;
  /** Why it failed or what it waits for. */
  readonly problem: CellProblem | null;
  /** `export let`, controls nested out of reach, ... */
  readonly warnings: readonly CellProblem[];
  /** Names of the cells it imports, in order. */
  readonly imports: readonly string[];
  /** Names it exports, default included. */
  readonly exports: readonly string[];
  /**
   * Value of the default export of the last good run; kept while running, failed, or waiting for a cell to be mended.
   * Undefined while the reader has yet to enter something: what was shown before belongs to other entries.
   */
  readonly shown: unknown;
  /** Controls it exports (not those passed on from other cells) with their current values, in order of export. */
  readonly controls: readonly {
    name: string;
    control: Control;
    value: unknown;
  }[];
  /** Completed runs since the workbook was loaded, failed ones included. */
  readonly runs: number;
  /** Duration of the last completed run, ms; 0 without a clock in the options. */
  readonly milliseconds: number;
}

/** What an engine needs from whoever owns it: a reader, libraries, and who is told. */
export interface EngineOptions {
  /** Reads a cell's text: `readCell`, or one that knows some texts already. */
  read: CellReader;
  /** Awaited before a text other than those of `load` is read, for a reader that has to be fetched first. */
  beforeRead?(): Promise<void>;
  /** Libraries a cell may import by name; called at most once a name. */
  libraries: Record<string, () => Promise<object> | object>;
  /** Parts of libraries that are there from the start: cells that need no more do not wait for the whole. */
  early?: Readonly<Record<string, object>>;
  /** Called after each change of any cell's state, once per settled batch per cell. */
  onState(state: CellState): void;
  /** Called when cells were added, removed, renamed or moved, or a text was rewritten by a rename. */
  onCells?(cells: readonly CellText[]): void;
  /**
   * Awaited after a text changed and before the first cell runs, so that a workbook is saved before code that
   * may hang is started. Not called for control moves. When it fails the cells run all the same: what became of
   * the saving is for the page to tell.
   */
  beforeRun?(): Promise<void> | void;
  /** Names of the cells that somebody looks at: these go first, with what they need. Without it all are. */
  inSight?(): Iterable<string>;
  /**
   * Asked before each cell, with whether a cell in sight needs it: a promise makes the engine tell what it has and
   * ask again when it resolves, so that a page can paint results as they come. Without it a batch of cells runs in
   * one go.
   */
  rest?(seen: boolean): Promise<void> | null;
  /** Called when a control moved, with its place in the settings. */
  onSetting?(cell: string, control: string): void;
  /** Milliseconds, for the durations in the states; the page has the clock. */
  now?(): number;
}

/** The reactive engine: no DOM, no clock, one instance per open workbook. */
export interface Engine {
  /**
   * Replace everything; runs nothing until `run()`: until then changes are only taken over. Throws InputError when
   * a name is not usable or given twice, and then nothing is replaced.
   */
  load(cells: readonly CellText[], settings?: Record<string, Setting>): void;
  /** Run all stale cells and what follows from them; resolves when nothing is left to run. */
  run(): Promise<void>;
  /** New text for a cell; runs it and its downstream. The same text again does nothing. */
  edit(name: string, text: string): Promise<void>;
  /** Insert a cell before position `at` (default: the end). Throws InputError when the name is taken or not usable. */
  add(name: string, text: string, at?: number): Promise<void>;
  remove(name: string): Promise<void>;
  /** Rename and rewrite the imports of its readers. */
  rename(from: string, to: string): Promise<void>;
  move(name: string, to: number): void;
  /** The reader moved a control; re-runs exactly the cells that read it. Resolves when those in sight have run. */
  setControl(cell: string, control: string, value: unknown): Promise<void>;
  /**
   * Where a control that stands in some cell's `shown` belongs, be it the control itself or the view of it that
   * another cell imported; null for a control that no cell exports. Its value is in the state of that cell: reading
   * `.value` of a view would count as a reading by the cell that shows it.
   */
  ownerOf(control: object): { cell: string; name: string } | null;
  /** Current settings, for the document. */
  settings(): Record<string, Setting>;
  cells(): readonly CellText[];
  state(name: string): CellState;
  states(): readonly CellState[];
  /** What each is doing, in order: less work than their states. */
  phases(): readonly CellPhase[];
  /** Names of cells that (directly or not) read `name`. */
  downstream(name: string): string[];
  /** Abort whatever runs and run clean-ups; the engine is of no further use. */
  dispose(): void;
}

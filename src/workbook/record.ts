import type { ControlSlot, Reads } from './controls.ts';
import type { CellPhase, CellProblem, CellState } from './engineTypes.ts';
import type { CompiledCell } from './evaluate.ts';
import type { Input } from './inputs.ts';
import { isCellPath, nameInPath } from './names.ts';
import { type CellReader, type ParsedCell, type Rewritten, valueExports } from './parsedCell.ts';

/** A run of a cell, from its start until the next one starts or the cell goes. */
export interface Run {
  readonly abort: AbortController;
  readonly stops: (() => void)[];
  readonly reads: Reads;
  readonly inputs: Input[];
  readonly started: number;
  /** What runs; kept for the places in its stack traces. */
  compiled: CompiledCell | null;
}

/** Why a cell cannot run at the moment. */
export interface Block {
  phase: 'failed' | 'waiting';
  problem: CellProblem;
}

/** How a run ends; waiting: with the request that the reader enters something first. */
export type Ending = 'done' | 'failed' | 'waiting';

/** All that the engine knows of one cell. */
export interface CellRecord {
  name: string;
  text: string;
  parsed: ParsedCell;
  rewritten: Rewritten;
  /** Names of the cells it imports, each once, in order. */
  uses: readonly string[];
  /** Names of its values. */
  exports: readonly string[];
  /** Compiled by the first run after an edit. */
  compiled: CompiledCell | null;
  /** To be looked at as soon as everything it reads is settled. */
  due: boolean;
  block: Block | null;
  /** In progress. */
  running: Run | null;
  /** The last run that was started, in progress or not; its signal and clean-ups are still open. */
  live: Run | null;
  /** What the last completed run was given; null when it has to run whatever it is given. */
  inputs: Input[] | null;
  /** How that run ended, and with what. */
  ended: Ending | null;
  problem: CellProblem | null;
  values: ReadonlyMap<string, unknown>;
  reads: Reads;
  runWarnings: CellProblem[];
  /** About controls that its values hide from readers, as its first good run after an edit found them; null before that. */
  hidden: CellProblem[] | null;
  /** Of the last good run. */
  shown: unknown;
  slots: ControlSlot[];
  runs: number;
  milliseconds: number;
  /** As last handed out. */
  state: CellState | null;
  /** As the page was last told. */
  told: CellState | null;
}

/** A cell that has been read and has not run. */
export function newRecord(name: string, text: string, read: CellReader): CellRecord {
  return {
    name,
    ...readText(text, read),
    due: false,
    block: null,
    running: null,
    live: null,
    ended: null,
    problem: null,
    values: new Map(),
    reads: new Map(),
    runWarnings: [],
    shown: undefined,
    slots: [],
    runs: 0,
    milliseconds: 0,
    state: null,
    told: null,
  };
}

/** The part of a record that follows from the text, for a cell that has to run with it. */
export function readText(
  text: string,
  read: CellReader,
): Pick<CellRecord, 'text' | 'parsed' | 'rewritten' | 'uses' | 'exports' | 'compiled' | 'hidden' | 'inputs'> {
  const { parsed, rewritten } = read(text);
  const exports = valueExports(parsed).map((e) => e.name);
  return {
    ...{ text, parsed, rewritten, uses: usedCells(parsed), exports },
    ...{ compiled: null, hidden: null, inputs: null },
  };
}

function usedCells({ imports }: ParsedCell): string[] {
  const paths = imports.map((i) => i.from).filter(isCellPath);
  return [...new Set(paths.map(nameInPath))];
}

/** Why it cannot run, or why its last run failed. */
export const troubleOf = (record: CellRecord): CellProblem | null => record.block?.problem ?? record.problem;

/** What the cell is doing. */
export function phaseOf(record: CellRecord): CellPhase {
  if (record.running) return 'running';
  if (record.due) return 'stale';
  return record.block?.phase ?? record.ended ?? 'idle';
}

function describe(record: CellRecord): CellState {
  const phase = phaseOf(record);
  const trouble = troubleOf(record);
  return {
    name: record.name,
    text: record.text,
    phase,
    problem: phase === 'failed' || phase === 'waiting' ? trouble : null,
    warnings: [...record.parsed.warnings, ...record.runWarnings],
    imports: record.uses,
    exports: record.exports,
    shown: trouble?.notYet ? undefined : record.shown,
    controls: record.slots.map(({ name, control, value }) => ({ name, control, value })),
    runs: record.runs,
    milliseconds: record.milliseconds,
  };
}

/** The cell's state; the object handed out before as long as nothing in it has changed. */
export function stateOf(record: CellRecord): CellState {
  const now = describe(record);
  if (!record.state || !sameState(record.state, now)) record.state = now;
  return record.state;
}

function sameState(before: CellState, now: CellState): boolean {
  return (Object.keys(now) as (keyof CellState)[]).every((key) => sameField(before[key], now[key], key));
}

function sameField(before: unknown, now: unknown, key: keyof CellState): boolean {
  if (Object.is(before, now)) return true;
  if (key === 'shown' || !Array.isArray(before) || !Array.isArray(now)) return false;
  return before.length === now.length && before.every((item, i) => sameItem(item, now[i]));
}

/** Lists hold names, problems or controls: compared by their fields. */
function sameItem(before: unknown, now: unknown): boolean {
  if (typeof before !== 'object' || before === null) return before === now;
  return Object.entries(before).every(([key, value]) =>
    Object.is(value, (now as Record<string, unknown>)[key]),
  );
}

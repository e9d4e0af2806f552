import { choice, grid, slider, textField, toggle } from '../../src/view/controls.ts';
import type { Setting } from '../../src/workbook/document.ts';
import { createEngine } from '../../src/workbook/engine.ts';
import type { CellState, Engine, EngineOptions } from '../../src/workbook/engineTypes.ts';
import { readCell } from '../../src/workbook/readCell.ts';

/** What the test cells import as '#toolkit'. */
const TOOLKIT = {
  slider,
  choice,
  toggle,
  textField,
  grid,
  read: (control: { value: unknown }) => control.value,
};

export interface TestWorkbook {
  engine: Engine;
  /** States as the page was told them, in order. */
  told: CellState[];
  /** Completed runs since the last call, of the cells that ran: 'a b' for one each, 'a×2' for two. */
  ran(): string;
  /** What cell `name` (without .ts) shows. */
  shown(name: string): unknown;
  /** `phase: message` of a cell. */
  status(name: string): string;
  state(name: string): CellState;
}

export type Texts = Record<string, string>;

/** A workbook of the given cells (names without .ts), not run yet. */
export function makeWorkbook(
  texts: Texts,
  options: Partial<EngineOptions> = {},
  settings: Record<string, Setting> = {},
): TestWorkbook {
  const told: CellState[] = [];
  const libraries = { '#toolkit': () => TOOLKIT, ...options.libraries };
  const engine = createEngine({
    read: readCell,
    onState: (state) => told.push(state),
    ...options,
    libraries,
  });
  engine.load(cellsOf(texts), settings);
  let before = new Map<string, number>();
  const ran = () => {
    const now = new Map(engine.states().map((s) => [s.name, s.runs]));
    const counts = [...now].map(
      ([name, runs]) => [name.slice(0, -3), runs - (before.get(name) ?? 0)] as const,
    );
    before = now;
    return counts
      .flatMap(([name, runs]) => (runs === 0 ? [] : runs === 1 ? name : `${name}×${runs}`))
      .join(' ');
  };
  const state = (name: string) => engine.state(`${name}.ts`);
  const status = (name: string) => {
    const { phase, problem } = state(name);
    return problem ? `${phase}: ${problem.message}` : phase;
  };
  return { engine, told, ran, state, status, shown: (name) => state(name).shown };
}

/** The same, run once; `ran()` counts from here. */
export async function openWorkbook(...args: Parameters<typeof makeWorkbook>): Promise<TestWorkbook> {
  const workbook = makeWorkbook(...args);
  await workbook.engine.run();
  workbook.ran();
  workbook.told.length = 0;
  return workbook;
}

export const cellsOf = (texts: Texts) =>
  Object.entries(texts).map(([name, text]) => ({ name: `${name}.ts`, text }));

/** A promise to be settled from outside, for cells that wait. */
export function gate<T = void>(): {
  promise: Promise<T>;
  open: (value: T) => void;
  fail: (fault: Error) => void;
} {
  let open!: (value: T) => void;
  let fail!: (fault: Error) => void;
  const promise = new Promise<T>((resolve, reject) => {
    open = resolve;
    fail = reject;
  });
  return { promise, open, fail };
}

/** Lets all that can go on without outside help go on. */
export const breathe = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

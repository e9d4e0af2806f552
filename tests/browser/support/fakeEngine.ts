import { InputError } from '../../../src/base/inputError.ts';
import type { CellText, Setting } from '../../../src/workbook/document.ts';
import type { CellPhase, CellState, Engine } from '../../../src/workbook/engineTypes.ts';

/** What a run of a text gives; thrown errors become the cell's problem. */
export type Interpret = (
  text: string,
  name: string,
  values: Record<string, unknown>,
) => Partial<
  Pick<CellState, 'shown' | 'controls' | 'imports' | 'exports' | 'warnings' | 'phase' | 'problem'>
>;

const EMPTY: Omit<CellState, 'name' | 'text'> = {
  phase: 'idle',
  problem: null,
  warnings: [],
  imports: [],
  exports: [],
  shown: undefined,
  controls: [],
  runs: 0,
  milliseconds: 0,
};

/** An engine without a language: the test says what each text gives. It keeps the contract that the page relies on. */
export class FakeEngine implements Engine {
  readonly log: string[] = [];
  onState: (state: CellState) => void = () => {};
  onCells: (cells: readonly CellText[]) => void = () => {};
  readonly #interpret: Interpret;
  #states: CellState[] = [];
  #values: Record<string, Record<string, unknown>> = {};

  constructor(cells: readonly CellText[], interpret: Interpret) {
    this.#interpret = interpret;
    this.load(cells);
  }

  load(cells: readonly CellText[], settings: Record<string, Setting> = {}): void {
    this.log.push('load');
    this.#values = {};
    for (const [place, { value }] of Object.entries(settings)) {
      const [cell, control] = place.split('#') as [string, string];
      this.#values[cell] = { ...this.#values[cell], [control]: value };
    }
    this.#states = cells.map(({ name, text }) => ({ ...EMPTY, name, text }));
  }

  async run(): Promise<void> {
    for (const { name, phase } of this.#states) if (phase === 'idle') this.#execute(name);
  }

  async edit(name: string, text: string): Promise<void> {
    this.log.push(`edit ${name}`);
    this.#put(name, { text });
    this.#execute(name);
  }

  async add(name: string, text: string, at = this.#states.length): Promise<void> {
    this.log.push(`add ${name} at ${at}`);
    this.#states.splice(at, 0, { ...EMPTY, name, text });
    this.onCells(this.cells());
    this.#execute(name);
  }

  async remove(name: string): Promise<void> {
    this.log.push(`remove ${name}`);
    this.#states = this.#states.filter((state) => state.name !== name);
    this.onCells(this.cells());
  }

  async rename(from: string, to: string): Promise<void> {
    if (this.#states.some((state) => state.name === to))
      throw new InputError(`there is already a cell ${to.replace('.ts', '')}`);
    this.log.push(`rename ${from} ${to}`);
    this.#states = this.#states.map((state) => (state.name === from ? { ...state, name: to } : state));
    this.onCells(this.cells());
  }

  move(name: string, to: number): void {
    this.log.push(`move ${name} to ${to}`);
    const state = this.state(name);
    this.#states = this.#states.filter((other) => other !== state);
    this.#states.splice(to, 0, state);
    this.onCells(this.cells());
  }

  async setControl(cell: string, control: string, value: unknown): Promise<void> {
    this.log.push(`set ${cell}#${control}`);
    this.#values[cell] = { ...this.#values[cell], [control]: value };
    this.#execute(cell);
  }

  settings(): Record<string, Setting> {
    return Object.fromEntries(
      Object.entries(this.#values).flatMap(([cell, values]) =>
        Object.entries(values).map(([control, value]) => [`${cell}#${control}`, { value, from: 'null' }]),
      ),
    );
  }

  cells(): readonly CellText[] {
    return this.#states.map(({ name, text }) => ({ name, text }));
  }

  state(name: string): CellState {
    return this.#states.find((state) => state.name === name)!;
  }

  states(): readonly CellState[] {
    return this.#states;
  }

  phases(): readonly CellPhase[] {
    return this.#states.map((state) => state.phase);
  }

  downstream(name: string): string[] {
    return this.#states.filter((state) => state.imports.includes(name)).map((state) => state.name);
  }

  ownerOf(control: object): { cell: string; name: string } | null {
    for (const { name: cell, controls } of this.#states) {
      const entry = controls.find((one) => one.control === control);
      if (entry) return { cell, name: entry.name };
    }
    return null;
  }

  dispose(): void {}

  /** For tests that look at one phase. */
  put(name: string, change: Partial<CellState>): void {
    this.#put(name, change);
  }

  #put(name: string, change: Partial<CellState>): void {
    this.#states = this.#states.map((state) => (state.name === name ? { ...state, ...change } : state));
    this.onState(this.state(name));
  }

  #execute(name: string): void {
    const { text, runs } = this.state(name);
    try {
      const result = this.#interpret(text, name, this.#values[name] ?? {});
      this.#put(name, { phase: 'done', problem: null, runs: runs + 1, ...result });
    } catch (error) {
      const { message, line, column } = error as Error & { line?: number; column?: number };
      const problem = { message, hint: 'Mend it and go on.', line: line ?? null, column: column ?? null };
      this.#put(name, { phase: 'failed', problem });
    }
  }
}

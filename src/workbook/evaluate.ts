import { helperNames, type ParsedCell, type Rewritten, valueExports } from './parsedCell.ts';

/** `import.meta` of a cell. */
interface CellMeta {
  /** Aborted when the run is over and done with: a newer run begins, the cell is removed, the workbook closes. */
  readonly signal: AbortSignal;
  /** Registers clean-up for that moment. */
  onStop(stop: () => void): void;
}

declare global {
  interface ImportMeta extends CellMeta {}
}

/** What one run of a cell is given. */
export interface RunScope {
  meta: CellMeta;
  /** What import() in the cell calls. */
  load: (from: string) => Promise<object>;
  /** Values of the imported names, in the order of the import statements. */
  imported: unknown[];
}

/** A cell's text as a function: compiled once an edit, called once a run. */
export interface CompiledCell {
  /** Name of the text in stack traces. */
  url: string;
  /** Characters on line 1 before the cell's own text. */
  shift: number;
  /** Runs the cell; the exported values in the order of the exports, or a promise of them when it waits inside. */
  call(scope: RunScope): unknown[] | Promise<unknown[]>;
}

// biome-ignore lint/security/noGlobalEval: running cells is what this is for; the frame around it is sandboxed.
const indirectEval: (text: string) => unknown = globalThis.eval;

/**
 * Compiles a cell once; each run calls it again. Indirect evaluation sees the globals and nothing of ours. All that
 * is added stands on line 1 before the text or after its last line, so lines need no mapping.
 */
export function compileCell(name: string, cell: ParsedCell, rewritten: Rewritten): CompiledCell {
  const { shown, meta, load } = helperNames(cell.helper);
  const locals = cell.imports.flatMap((i) => i.names.map((n) => n.local));
  const head = `"use strict";${rewritten.asynchronous ? 'async' : ''}(${[meta, load, ...locals].join(',')})=>{let ${shown};`;
  const tail = `\n;return [${valueExports(cell).map((e) => e.local)}]}`;
  const url = `cell:${name}`;
  const body = indirectEval(`${head}${rewritten.body}${tail}\n//# sourceURL=${url}`) as (
    ...values: unknown[]
  ) => unknown[];
  return {
    url,
    shift: head.length,
    call: ({ meta: metaValue, load: loadValue, imported }) => body(metaValue, loadValue, ...imported),
  };
}

/** Place of the uppermost stack frame inside the given text; null when the engine's stack does not tell. */
export function placeInStack(
  fault: unknown,
  compiled: CompiledCell,
): { line: number; column: number } | null {
  const stack = (fault as { stack?: unknown } | null)?.stack;
  if (typeof stack !== 'string') return null;
  const frame = new RegExp(`${compiled.url.replace('.', '\\.')}:(\\d+):(\\d+)`).exec(stack);
  if (!frame) return null;
  const line = Number(frame[1]);
  const column = Number(frame[2]) - (line === 1 ? compiled.shift : 0);
  return { line, column: Math.max(1, column) };
}

/** Name of the cell in which the fault was thrown, as far as the stack tells. */
export function cellInStack(fault: unknown): string | null {
  const stack = (fault as { stack?: unknown } | null)?.stack;
  return typeof stack === 'string' ? (/cell:([\w-]+\.ts):\d+:\d+/.exec(stack)?.[1] ?? null) : null;
}

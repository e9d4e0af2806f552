import type { CellProblem } from './engineTypes.ts';

/** One name taken from a module: `local` is what it is called in this cell. */
export interface ImportedName {
  /** Exported name over there; '*' for all of them in one object. */
  name: string;
  local: string;
  offset: number;
}

/** An import statement, or the import behind `export { x } from './a.ts'`. */
export interface Import {
  from: string;
  names: ImportedName[];
  offset: number;
}

/** A name that a cell exports, and where in its text. */
export interface Export {
  name: string;
  /** Name of the value in the cell. */
  local: string;
  offset: number;
}

/** A quoted module name anywhere in the text, types included: what a rename has to rewrite. */
export interface ModuleReference {
  from: string;
  start: number;
  end: number;
}

/** What a cell's text says of itself without being run. */
export interface ParsedCell {
  /** False when the text cannot be read at all; `problem` says why. */
  readable: boolean;
  imports: Import[];
  exports: Export[];
  /** Types it exports by name; they do not exist at run time. */
  types: string[];
  /** Names declared at the top of the cell. */
  declared: string[];
  references: ModuleReference[];
  /** Beginning of the helper names of rewrite.ts: occurs nowhere in the text. */
  helper: string;
  problem: CellProblem | null;
  warnings: CellProblem[];
}

/** A cell's text as the body of a function; every line and column is that of the cell's own text. */
export interface Rewritten {
  body: string;
  /** It waits at its top level, so it has to become an async function. */
  asynchronous: boolean;
  problem: CellProblem | null;
}

/** Helper names inside the body; see RunScope in evaluate.ts for what they are bound to. */
export const helperNames = (helper: string) => ({
  shown: `${helper}d`,
  meta: `${helper}m`,
  load: `${helper}i`,
});

/** All that the engine knows of a cell's text. Plain data, so that shipped cells can be read when they are built. */
export interface ReadCell {
  parsed: ParsedCell;
  rewritten: Rewritten;
}

/** Reads a cell's text; never throws. */
export type CellReader = (text: string) => ReadCell;

/** Names that a type-only export list may leave in `exports`: they have no value. */
export const valueExports = (cell: ParsedCell): Export[] =>
  cell.exports.filter((e) => !cell.types.includes(e.local) || cell.declared.includes(e.local));

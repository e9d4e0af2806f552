import type { CellKind } from './templates.ts';

/** What a cell can ask of the page it is on. */
export interface CellActions {
  edit(cell: string, text: string): void;
  /** Throws InputError when the name cannot be used. */
  rename(cell: string, to: string): Promise<void>;
  /** One place up (-1) or down (1). */
  move(cell: string, by: 1 | -1): void;
  reset(cell: string): void;
  remove(cell: string): void;
  addBelow(cell: string, kind: CellKind): void;
  fold(cell: string, folded: boolean): void;
  /** Scrolls to a cell and puts the focus there. */
  jump(cell: string): void;
  /** Puts the focus on the list of contents. */
  toContents(): void;
}

/** Where a cell stands among the others. */
export interface CellPlace {
  first: boolean;
  last: boolean;
  folded: boolean;
  /** Whether it has a shipped text and differs from it. */
  changed: boolean;
  /** Cells it reads that are there. */
  reads: readonly string[];
  /** Cells that read it. */
  feeds: readonly string[];
  /** The read cell that holds it up, while waiting. */
  waitsFor: string | null;
}

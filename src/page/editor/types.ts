import type { CellProblem } from '../../workbook/engineTypes.ts';

/** Names another module offers, for completion: `source` is what an import would say. */
export interface Offer {
  source: string;
  names: readonly string[];
}

/** What an editor begins with and tells of. */
export interface EditorOptions {
  text: string;
  /** Name of the editor for screen readers. */
  label: string;
  /** What can be imported, asked for each time a completion is. */
  offers(): readonly Offer[];
  /** After each change by the user. */
  changed(text: string): void;
  /** Ctrl- or Cmd-Enter. */
  run(): void;
}

/** An editor as the page sees it, whichever library draws it. */
export interface CodeEditor {
  readonly dom: HTMLElement;
  readonly text: string;
  readonly hasFocus: boolean;
  /** Text from elsewhere; kept as a step that can be undone, and not reported as a change by the user. */
  setText(text: string): void;
  /** What is underlined. */
  setProblems(problems: readonly (CellProblem & { severity: 'error' | 'warning' })[]): void;
  /** Puts the cursor there, 1-based, and the focus with it. */
  goTo(line: number, column: number): void;
  focus(): void;
  destroy(): void;
}

/** What the editor bundle exports. */
export interface EditorModule {
  createEditor(options: EditorOptions): CodeEditor;
}

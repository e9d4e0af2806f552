import type { WorkbookDocument } from './document.ts';

/** What the frame may ask for; the host looks the text up in this fixed list and nowhere else. */
export const LIBRARY_NAMES = ['toolkit', 'plot', 'arquero', 'd3-array', 'editor', 'reader', 'files'] as const;
/** One of `LIBRARY_NAMES`. */
export type LibraryName = (typeof LIBRARY_NAMES)[number];

/** Host to frame. */
export type HostMessage =
  | {
      kind: 'open';
      document: WorkbookDocument;
      /** Texts to reset to; null when the workbook did not start from a shipped one. */
      shipped: WorkbookDocument['cells'] | null;
      run: boolean;
      theme: 'light' | 'dark';
    }
  | { kind: 'library'; name: LibraryName; text: string }
  | { kind: 'library-failed'; name: LibraryName; reason: string }
  | { kind: 'saved'; revision: number }
  | { kind: 'save-failed'; revision: number }
  | { kind: 'theme'; theme: 'light' | 'dark' }
  | { kind: 'run' }
  /** Lead the reader to the first cell without a result of the present code. */
  | { kind: 'show-trouble' }
  /** Post the workbook now if it changed. */
  | { kind: 'save' }
  | { kind: 'snapshot'; request: number }
  | { kind: 'ping'; request: number };

/** Frame to host. Hostile until checked: see src/host/port.ts. */
export type FrameMessage =
  | { kind: 'ready' }
  | { kind: 'library'; name: LibraryName }
  | {
      kind: 'changed';
      revision: number;
      /** A run of this content waits for the answer. */
      runs: boolean;
      cells: WorkbookDocument['cells'];
      settings: WorkbookDocument['settings'];
    }
  | {
      kind: 'status';
      /** False until the cells were let run: before that nothing runs, which says nothing. */
      started: boolean;
      running: number;
      failed: number;
      waiting: number;
      cells: number;
    }
  | { kind: 'snapshot'; request: number; cells: SnapshotCell[] }
  | { kind: 'pong'; request: number };

/** A cell as the share page shows it; all HTML is untrusted and sanitised by the host before use. */
export interface SnapshotCell {
  name: string;
  /** Its parts of the short answer; '' for none. */
  inShort: string;
  /** Everything else that it shows. */
  html: string;
}

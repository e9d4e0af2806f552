import { html, nothing } from 'lit';
import type { CellKind } from './cell/templates.ts';

/** The last thing that took something away, and how to bring it back. */
export interface Undo {
  what: string;
  back(): Promise<void>;
  /** The control that was moved; once it has changed again there is nothing to go back to without losing that. */
  control?: string;
}

/** A line at the foot of the window that offers to take the last deletion or reset back. */
export function undoOffer(undo: Undo | null, takeBack: () => void, dismiss: () => void) {
  if (!undo) return nothing;
  return html`<div class="undo-offer"><span role="status">${undo.what}</span>
    <button type="button" aria-keyshortcuts="Control+Z" title="Control+Z" @click=${takeBack}>Undo</button>
    <button type="button" class="quiet" aria-label="Dismiss" @click=${dismiss}>×</button>
  </div>`;
}

/** What concerns all cells; `reset` is null for a workbook that has nothing to go back to. */
export const pageBar = (
  allFolded: boolean,
  foldAll: () => void,
  reset: { able: boolean; act(): void } | null,
) => html`<div class="page-bar">
  <button type="button" class="quiet" @click=${foldAll}>${allFolded ? 'Show all code' : 'Fold all code'}</button>
  ${
    reset
      ? html`<button type="button" class="quiet" ?disabled=${!reset.able} @click=${reset.act}>Reset workbook</button>`
      : nothing
  }
</div>`;

export const pageEnd = (add: (kind: CellKind) => void) => html`<div class="page-end">
  <button type="button" @click=${() => add('code')}>Add a code cell</button>
  <button type="button" @click=${() => add('prose')}>Add prose</button>
</div>`;

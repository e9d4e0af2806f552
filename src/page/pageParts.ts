import { html, nothing } from 'lit';
import type { CellState } from '../workbook/engineTypes.ts';
import { shortName } from '../workbook/names.ts';
import type { CellKind } from './cell/templates.ts';

/** What is said aloud when a cell's state changes; null when that is not worth it. */
export function newsOf(before: CellState | undefined, now: CellState): string | null {
  const failedBefore = before?.phase === 'failed';
  if (now.phase === 'failed' && !failedBefore)
    return `${shortName(now.name)} failed: ${now.problem?.message ?? ''}`;
  return now.phase === 'done' && failedBefore ? `${shortName(now.name)} works again` : null;
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

/** Buttons at the foot of the page that add a cell. */
export const pageEnd = (add: (kind: CellKind) => void) => html`<div class="page-end">
  <button type="button" @click=${() => add('code')}>Add a code cell</button>
  <button type="button" @click=${() => add('prose')}>Add prose</button>
</div>`;

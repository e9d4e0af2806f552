import { html, nothing } from 'lit';
import type { CellProblem, CellState } from '../../workbook/engineTypes.ts';
import { shortName } from '../../workbook/names.ts';
import { plain } from '../results/inspect.ts';
import type { CellPlace } from './actions.ts';

type GoTo = (line: number, column: number) => void;

function card(problem: CellProblem, tone: 'problem' | 'caution', goTo: GoTo) {
  const { line, column } = problem;
  return html`<div class="card ${tone}">
    <div class="card-text"><span class="card-tone">${tone === 'problem' ? 'Failed' : 'Caution'}</span>${plain(
      problem.message,
    )}</div>
    ${problem.hint ? html`<div class="card-hint">${plain(problem.hint)}</div>` : nothing}
    ${
      line === null
        ? nothing
        : html`<button type="button" class="place" @click=${() => goTo(line, column ?? 1)}>Line ${line}${
            column === null ? nothing : html`, column ${column}`
          }</button>`
    }
  </div>`;
}

function waiting(state: CellState, place: CellPlace, jump: (cell: string) => void) {
  const culprit = place.waitsFor;
  return html`<div class="card waiting">
    <div class="card-text">${plain(state.problem?.message ?? 'Waiting')}</div>
    ${state.problem?.hint ? html`<div class="card-hint">${plain(state.problem.hint)}</div>` : nothing}
    ${
      culprit
        ? html`<button type="button" class="place" @click=${() => jump(culprit)}>Go to ${shortName(culprit)}</button>`
        : nothing
    }
  </div>`;
}

/** What is wrong with a cell, what it waits for, and what is worth knowing about its code. */
export function problemCards(state: CellState, place: CellPlace, goTo: GoTo, jump: (cell: string) => void) {
  const failed = state.phase === 'failed' && state.problem ? card(state.problem, 'problem', goTo) : nothing;
  // What the reader has yet to enter is asked for where the result would stand.
  const waits = state.phase === 'waiting' && !state.problem?.notYet ? waiting(state, place, jump) : nothing;
  return html`${failed}${waits}${state.warnings.map((warning) => card(warning, 'caution', goTo))}`;
}

import { html, nothing } from 'lit';
import type { TestInTable } from '../../../toolkit/files.ts';
import { plain } from '../../results/inspect.ts';
import type { FilesModule, HourGrid } from './gridElement.ts';

/** The tests in the table, of which somebody is to take one; none where it holds one. */
export const testsOf = (files: FilesModule, { grid, control }: HourGrid): TestInTable[] =>
  files.testsIn(grid, control.rows!);

/** Leaves the stages of one test in the table; Undo brings the others back. */
function take(element: HourGrid, { id, grid, rows }: TestInTable): void {
  const { source } = element;
  const said = `Test “${id}”: ${rows} of ${element.grid.rows.length} rows`;
  const { headings } = grid;
  const taken = source && {
    ...source,
    headings,
    guessed: headings.map(() => false),
    about: [...source.about, `${said}.`],
  };
  element.change(grid, `${said}. Undo brings the others back`, taken);
  element.columnsOpen = false;
  element.goTo({ row: 0, column: 0 });
}

/** For a table of several tests: which of them is meant. */
export function testChoice(element: HourGrid, files: FilesModule) {
  const tests = testsOf(files, element);
  if (tests.length === 0) return nothing;
  const pressed = (event: Event) => {
    const list = (event.currentTarget as Element).parentElement!.querySelector('select')!;
    take(element, tests[list.selectedIndex]!);
  };
  const holds = tests.length === 1 ? 'A row holds a whole test.' : `The table holds ${tests.length} tests.`;
  return html`<p class="hint">${holds} One is looked at here; the command line answers for all of them at once.</p>
    <div class="tools tests">
      <label class="headings-choice"><span>Test</span> <select>${tests.map(({ id }) => html`<option>${plain(id)}</option>`)}</select></label>
      <button type="button" @click=${pressed}>Take this test</button>
    </div>`;
}

import type { CellText } from '../workbook/document.ts';
import type { CellState, Engine } from '../workbook/engineTypes.ts';
import type { CellPlace } from './cell/actions.ts';
import type { Offer } from './editor/types.ts';
import { heldUpBy, readersIn } from './graph.ts';

/** Where each cell stands among the others, in page order. */
export function placesOf(
  states: readonly CellState[],
  folded: ReadonlySet<string>,
  shipped: readonly CellText[] | null,
): CellPlace[] {
  const byName = new Map(states.map((state) => [state.name, state]));
  const readers = readersIn(states);
  const originals = new Map(shipped?.map((cell) => [cell.name, cell.text]));
  return states.map((state, index) => {
    const original = originals.get(state.name);
    return {
      first: index === 0,
      last: index === states.length - 1,
      folded: folded.has(state.name),
      changed: original !== undefined && original !== state.text,
      reads: state.imports.filter((name) => byName.has(name)),
      feeds: readers.get(state.name)!,
      waitsFor: heldUpBy(byName, state),
    };
  });
}

/** The first cell that failed, or, when none did, the first that waits. */
export function firstTrouble(states: readonly CellState[]): string | undefined {
  const first = (phase: CellState['phase']) => states.find((state) => state.phase === phase)?.name;
  return first('failed') ?? first('waiting');
}

/** Whether a text, the order of the cells or a control differs from the shipped workbook. */
export const differs = (engine: Engine, shipped: readonly CellText[]): boolean =>
  Object.keys(engine.settings()).length > 0 || !sameCells(engine.cells(), shipped);

const sameCells = (a: readonly CellText[], b: readonly CellText[]): boolean =>
  a.length === b.length && a.every(({ name, text }, i) => name === b[i]!.name && text === b[i]!.text);

/** What the code of `cell` can import: the toolkit, and whatever the other cells export. */
export const offersFor = (
  cell: string,
  states: readonly CellState[],
  toolkitNames: readonly string[],
): Offer[] => [
  { source: '#hourline', names: toolkitNames },
  ...states
    .filter((state) => state.name !== cell)
    .map((state) => ({ source: `./${state.name}`, names: state.exports })),
];

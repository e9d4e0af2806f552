import type { Control } from '../view/controls.ts';
import type { ControlSlot, Controls, Reads } from './controls.ts';
import { isCellPath, nameInPath } from './names.ts';
import type { CellRecord } from './record.ts';
import { sameValue } from './sameValue.ts';

/** One imported thing as it stood when a run began. */
export type Input =
  | { kind: 'value'; value: unknown }
  | { kind: 'control'; slot: ControlSlot; control: Control }
  | { kind: 'all'; parts: [name: string, input: Input][] };

/** Where the values of imports come from. */
export interface Sources {
  cells: ReadonlyMap<string, CellRecord>;
  libraries: ReadonlyMap<string, object>;
  controls: Controls;
}

/** What a run of the cell would be given now, in the order of its imported names. */
export function gatherInputs(record: CellRecord, sources: Sources): Input[] {
  return record.parsed.imports.flatMap(({ from, names }) =>
    names.map(({ name }) =>
      isCellPath(from) ? fromCell(from, name, sources) : fromLibrary(from, name, sources),
    ),
  );
}

function fromLibrary(from: string, name: string, { libraries }: Sources): Input {
  const library = libraries.get(from)! as Record<string, unknown>;
  return { kind: 'value', value: name === '*' ? library : library[name] };
}

function fromCell(from: string, name: string, { cells, controls }: Sources): Input {
  const { values } = cells.get(nameInPath(from))!;
  if (name !== '*') return inputOf(values.get(name), controls);
  return { kind: 'all', parts: [...values].map(([key, value]) => [key, inputOf(value, controls)]) };
}

function inputOf(value: unknown, controls: Controls): Input {
  const slot = typeof value === 'object' && value !== null ? controls.slotOf(value) : undefined;
  return slot ? { kind: 'control', slot, control: slot.control } : { kind: 'value', value };
}

/** The value itself, or the run's own view of a control. */
export function handOver(input: Input, controls: Controls, reads: Reads): unknown {
  switch (input.kind) {
    case 'value':
      return input.value;
    case 'control':
      return controls.view(input.slot, reads);
    case 'all':
      return Object.freeze(
        Object.fromEntries(input.parts.map(([name, part]) => [name, handOver(part, controls, reads)])),
      );
  }
}

/** Whether a run with `now` would see what the last one saw, as far as that one looked at the controls. */
export function unchanged(record: CellRecord, now: Input[]): boolean {
  if (!record.inputs) return false;
  const sameInputs =
    record.inputs.length === now.length && record.inputs.every((input, i) => sameInput(input, now[i]!));
  return sameInputs && [...record.reads].every(([slot, value]) => sameValue(value, slot.value));
}

function sameInput(before: Input, now: Input): boolean {
  if (before.kind === 'value') return now.kind === 'value' && sameValue(before.value, now.value);
  if (before.kind === 'control') return now.kind === 'control' && sameControl(before, now);
  if (now.kind !== 'all' || before.parts.length !== now.parts.length) return false;
  return before.parts.every(([name, part], i) => {
    const [otherName, otherPart] = now.parts[i]!;
    return name === otherName && sameInput(part, otherPart);
  });
}

/** All but the value, which counts only when it was read. */
function sameControl(before: { slot: ControlSlot; control: Control }, now: typeof before): boolean {
  if (before.slot !== now.slot) return false;
  return sameValue({ ...before.control, value: null }, { ...now.control, value: null });
}

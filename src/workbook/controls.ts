import { isGridValue } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import { type Control, isControl } from '../view/controls.ts';
import type { Setting } from './document.ts';
import { sameValue } from './sameValue.ts';

/** One exported control with its value of the moment; lives as long as its cell. */
export interface ControlSlot {
  cell: string;
  readonly name: string;
  /** As made by the last good run of its cell. */
  control: Control;
  value: unknown;
}

/** Values of the controls that a run has read. */
export type Reads = Map<ControlSlot, unknown>;

const keyOf = (cell: string, name: string) => `${cell}#${name}`;

/** All controls of a workbook and where the reader has moved them. */
export class Controls {
  readonly #settings: Map<string, Setting>;
  readonly #slots = new Map<string, ControlSlot>();
  /** Slots by the controls the cells made and by the views that were handed out. */
  readonly #slotOf = new WeakMap<object, ControlSlot>();
  readonly #views = new WeakSet<object>();

  constructor(settings: Record<string, Setting> = {}) {
    this.#settings = new Map(Object.entries(settings));
  }

  /** Takes over the controls that a run has exported. Passed-on controls of other cells stay theirs. */
  adopt(cell: string, values: ReadonlyMap<string, unknown>): ControlSlot[] {
    const slots: ControlSlot[] = [];
    const taken = new Set<Control>();
    // `export default meter` beside `export const meter` is the same control under its proper name.
    const names = [...values.keys()].sort((a, b) => Number(a === 'default') - Number(b === 'default'));
    for (const name of names) {
      const control = values.get(name);
      if (!isControl(control) || this.#views.has(control) || taken.has(control)) continue;
      taken.add(control);
      slots.push(this.#place(cell, name, control));
    }
    return slots;
  }

  #place(cell: string, name: string, control: Control): ControlSlot {
    const key = keyOf(cell, name);
    const slot = this.#slots.get(key) ?? { cell, name, control, value: undefined };
    slot.control = control;
    slot.value = this.#startOrSetting(key, control);
    this.#slots.set(key, slot);
    this.#slotOf.set(control, slot);
    return slot;
  }

  /** A setting that does not fit is not thrown away: the code may come back to where it fits. */
  #startOrSetting(key: string, control: Control): unknown {
    const setting = this.#settings.get(key);
    const holds = setting?.from === startText(control) && valueFault(control, setting.value) === null;
    return holds ? setting.value : control.value;
  }

  slot(cell: string, name: string): ControlSlot | undefined {
    return this.#slots.get(keyOf(cell, name));
  }

  /** The slot behind a control or a view of one. */
  slotOf(control: object): ControlSlot | undefined {
    return this.#slotOf.get(control);
  }

  isView(value: object): boolean {
    return this.#views.has(value);
  }

  /** Returns false when the value is what it was. */
  move(slot: ControlSlot, value: unknown): boolean {
    const fault = valueFault(slot.control, value);
    if (fault) throw new InputError(`${slot.control.label || slot.name}: ${fault}.`, { field: slot.name });
    if (sameValue(slot.value, value)) return false;
    slot.value = value;
    const key = keyOf(slot.cell, slot.name);
    if (sameValue(slot.control.value, value)) this.#settings.delete(key);
    else this.#settings.set(key, { value, from: startText(slot.control) });
    return true;
  }

  /**
   * The control as an importing run sees it: `value` is the one of the moment, and reading it is noted in `reads`.
   * Each run gets a view of its own, so that a reading after an await or inside a function that was passed on is
   * still noted for the right cell.
   */
  view(slot: ControlSlot, reads: Reads): Control {
    const view = { ...slot.control };
    Object.defineProperty(view, 'value', {
      enumerable: true,
      get: () => {
        reads.set(slot, slot.value);
        return slot.value;
      },
    });
    this.#views.add(view);
    this.#slotOf.set(view, slot);
    return Object.freeze(view);
  }

  /** A control that is gone; what the reader had set stays in case it comes back. */
  forget(slot: ControlSlot): void {
    this.#slots.delete(keyOf(slot.cell, slot.name));
  }

  rename(from: string, to: string): void {
    for (const [key, setting] of [...this.#settings]) {
      if (!key.startsWith(`${from}#`)) continue;
      this.#settings.delete(key);
      this.#settings.set(keyOf(to, key.slice(from.length + 1)), setting);
    }
    for (const [key, slot] of [...this.#slots]) {
      if (slot.cell !== from) continue;
      this.#slots.delete(key);
      slot.cell = to;
      this.#slots.set(keyOf(to, slot.name), slot);
    }
  }

  /** Settings of the given cells, those that do not hold at the moment included. */
  settings(cells: ReadonlySet<string>): Record<string, Setting> {
    return Object.fromEntries(
      [...this.#settings].filter(([key]) => cells.has(key.slice(0, key.indexOf('#')))),
    );
  }
}

/** The starting value as `from` of a setting; '' for one that has no JSON text, which then never matches. */
function startText(control: Control): string {
  try {
    return JSON.stringify(control.value) ?? '';
  } catch {
    return '';
  }
}

/** What is wrong with a value for a control, as the rest of a sentence; null when it fits. */
function valueFault(control: Control, value: unknown): string | null {
  switch (control.control) {
    case 'slider':
      return numberFault(value, control.min, control.max);
    case 'number':
      return value === null ? null : numberFault(value, control.min, control.max);
    case 'choice':
      if (control.options.some((o) => o.value === value)) return null;
      return `expected one of ${control.options.map((o) => o.value).join(', ')}, got ${String(value)}`;
    case 'toggle':
      return typeof value === 'boolean' ? null : 'expected true or false';
    case 'text':
      return typeof value === 'string' ? null : 'expected a text';
    case 'keeper':
      return isPlain(value) ? null : 'expected something that can be written as JSON';
    case 'grid':
      return isGridValue(value) ? null : 'expected a table with headings and rows of text';
    default:
      return 'a control of an unknown kind cannot be moved';
  }
}

function numberFault(value: unknown, min: number, max: number): string | null {
  if (typeof value !== 'number' || Number.isNaN(value)) return 'expected a number';
  return value >= min && value <= max ? null : `expected a number from ${min} to ${max}, got ${value}`;
}

function isPlain(value: unknown): boolean {
  try {
    return JSON.stringify(value) !== undefined;
  } catch {
    return false;
  }
}

/** Largest number of objects looked through for controls that lie too deep to be followed, the least deep ones first. */
const SEARCH_LIMIT = 500;

/** Labels of controls inside arrays and plain objects of `value`, not `value` itself. */
export function nestedControls(value: unknown, isFollowed: (control: Control) => boolean): string[] {
  const found: string[] = [];
  const queue: unknown[] = isControl(value) ? [] : [value];
  const seen = new Set<unknown>();
  for (const item of queue) {
    if (seen.size === SEARCH_LIMIT) break;
    if (typeof item !== 'object' || item === null || seen.has(item) || ArrayBuffer.isView(item)) continue;
    seen.add(item);
    if (!isControl(item)) queue.push(...partsOf(item));
    else if (!isFollowed(item)) found.push(item.label);
  }
  return found;
}

/** Contents without calling getters; of a long array its beginning. */
function partsOf(item: object): unknown[] {
  if (Array.isArray(item)) return item.slice(0, SEARCH_LIMIT);
  if (Object.getPrototypeOf(item) !== Object.prototype) return [];
  return Object.values(Object.getOwnPropertyDescriptors(item)).map((d) => d.value);
}

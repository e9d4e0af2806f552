/** What a key does in the table. */
export type KeyAction =
  | { do: 'move'; rows: number; columns: number }
  | { do: 'next'; step: 1 | -1 }
  | { do: 'edit'; text?: string }
  | { do: 'clear' }
  | { do: 'leave' }
  | { do: 'undo' }
  | { do: 'redo' };

/** The part of a keyboard event that matters. */
interface Key {
  key: string;
  shiftKey: boolean;
  ctrlKey: boolean;
  metaKey: boolean;
  altKey: boolean;
  isComposing?: boolean;
}

const move = (rows: number, columns: number): KeyAction => ({ do: 'move', rows, columns });

const FAR = 1e6;
const PLAIN: Record<string, KeyAction> = {
  ArrowUp: move(-1, 0),
  ArrowDown: move(1, 0),
  ArrowLeft: move(0, -1),
  ArrowRight: move(0, 1),
  Home: move(0, -FAR),
  End: move(0, FAR),
  Enter: { do: 'edit' },
  F2: { do: 'edit' },
  Delete: { do: 'clear' },
  Backspace: { do: 'clear' },
  Escape: { do: 'leave' },
};
const WITH_CONTROL: Record<string, KeyAction> = {
  z: { do: 'undo' },
  y: { do: 'redo' },
  Z: { do: 'redo' },
  Home: move(-FAR, -FAR),
  End: move(FAR, FAR),
};

const tab = (event: Key): KeyAction => ({ do: 'next', step: event.shiftKey ? -1 : 1 });

/** While moving about. */
export function movingKey(event: Key): KeyAction | null {
  if (event.isComposing || event.altKey) return null;
  if (event.ctrlKey || event.metaKey) return WITH_CONTROL[event.key] ?? null;
  if (event.key === 'Tab') return tab(event);
  if (event.key.length === 1) return { do: 'edit', text: event.key };
  return PLAIN[event.key] ?? null;
}

/** While an entry is being edited; up and down belong to the list of suggestions in the heading row. */
export function editingKey(event: Key, row: number): KeyAction | null {
  if (event.isComposing) return null;
  if (event.key === 'Tab') return tab(event);
  if (event.key === 'Escape') return { do: 'leave' };
  if (event.key === 'Enter') return move(event.shiftKey ? -1 : 1, 0);
  if (row >= 0 && (event.key === 'ArrowUp' || event.key === 'ArrowDown')) return PLAIN[event.key]!;
  return null;
}

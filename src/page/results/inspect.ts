const MAX_DEPTH = 3;
const MAX_ITEMS = 12;
const MAX_TEXT = 200;

/** Six significant digits at most: enough to recognise a number, short enough to read past it. */
const number = (value: number): string => String(Number(value.toPrecision(6)));

const shortened = (text: string): string =>
  text.length > MAX_TEXT ? `${text.slice(0, MAX_TEXT)}… (${text.length} characters)` : text;

function list(value: ArrayLike<unknown>, depth: number): string {
  if (depth >= MAX_DEPTH) return `[… ${value.length} items]`;
  const shown = Array.from({ length: Math.min(value.length, MAX_ITEMS) }, (_, i) =>
    inside(value[i], depth + 1),
  );
  if (value.length > MAX_ITEMS) shown.push(`… ${value.length - MAX_ITEMS} more`);
  return `[${shown.join(', ')}]`;
}

function record(value: object, depth: number): string {
  const kind = Object.getPrototypeOf(value)?.constructor?.name ?? '';
  const opening = kind === '' || kind === 'Object' ? '' : `${kind} `;
  const keys = Object.keys(value);
  if (depth >= MAX_DEPTH) return `${opening}{… ${keys.length} fields}`;
  if (keys.length === 0) return `${opening}{}`;
  const indent = '  '.repeat(depth + 1);
  const lines = keys
    .slice(0, MAX_ITEMS)
    .map((key) => `${indent}${key}: ${inside((value as Record<string, unknown>)[key], depth + 1)}`);
  if (keys.length > MAX_ITEMS) lines.push(`${indent}… ${keys.length - MAX_ITEMS} more`);
  return `${opening}{\n${lines.join('\n')}\n${'  '.repeat(depth)}}`;
}

function object(value: object, depth: number): string {
  if (Array.isArray(value)) return list(value, depth);
  if (ArrayBuffer.isView(value) && 'length' in value)
    return list(value as unknown as ArrayLike<unknown>, depth);
  if (value instanceof Error) return `${value.name}: ${value.message}`;
  if (value instanceof Date) return Number.isNaN(value.getTime()) ? 'Date (invalid)' : value.toISOString();
  if (value instanceof Map) return `Map ${record(Object.fromEntries(value), depth)}`;
  if (value instanceof Set) return `Set ${list([...value], depth)}`;
  return record(value, depth);
}

function inside(value: unknown, depth: number): string {
  switch (typeof value) {
    case 'string':
      return JSON.stringify(shortened(value));
    case 'number':
      return number(value);
    case 'bigint':
      return `${value}n`;
    case 'function':
      return `function ${value.name}`;
    case 'object':
      return value === null ? 'null' : object(value, depth);
    default:
      return String(value);
  }
}

/** Any value as short readable text: limited in depth and length, and never an error, whatever its getters do. */
export function inspect(value: unknown): string {
  try {
    return inside(value, 0);
  } catch {
    return 'a value that cannot be shown';
  }
}

/** Text stays as it is, anything else is inspected: what a template may hold where a string was promised. */
export const plain = (value: unknown): string => (typeof value === 'string' ? value : inspect(value));

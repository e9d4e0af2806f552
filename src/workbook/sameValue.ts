/** Deeper data counts as changed, which is always safe. */
const DEEPEST = 200;

type TypedArray = Float64Array | Float32Array | Int32Array | Uint32Array | Uint8Array;

const isTypedArray = (value: object): value is TypedArray =>
  ArrayBuffer.isView(value) && !(value instanceof DataView);

/**
 * Whether a reader of `before` would see no difference in `after`: equal numbers, texts and the like; plain
 * objects, arrays and typed arrays with the same contents. Everything else (functions, class instances, objects
 * with getters) is the same only when it is the very same, because what is inside cannot be looked at safely.
 */
export function sameValue(before: unknown, after: unknown): boolean {
  return same(before, after, new Map(), 0);
}

function same(a: unknown, b: unknown, seen: Map<object, object>, depth: number): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Object.getPrototypeOf(a) !== Object.getPrototypeOf(b) || depth > DEEPEST) return false;
  if (isTypedArray(a)) return sameNumbers(a, b as TypedArray);
  if (!isPlain(a)) return false;
  // Met before against the same partner: being compared further up, or found equal already.
  if (seen.get(a) === b) return true;
  seen.set(a, b);
  return sameEntries(a, b, seen, depth);
}

function sameNumbers(a: TypedArray, b: TypedArray): boolean {
  return a.length === b.length && a.every((value, i) => Object.is(value, b[i]));
}

function isPlain(value: object): boolean {
  const prototype = Object.getPrototypeOf(value);
  return Array.isArray(value)
    ? prototype === Array.prototype
    : prototype === Object.prototype || prototype === null;
}

function sameEntries(a: object, b: object, seen: Map<object, object>, depth: number): boolean {
  const keys = Reflect.ownKeys(a);
  if (keys.length !== Reflect.ownKeys(b).length) return false;
  return keys.every((key) => {
    const inA = Object.getOwnPropertyDescriptor(a, key)!;
    const inB = Object.getOwnPropertyDescriptor(b, key);
    if (!inB || inA.get || inB.get || inA.set || inB.set) return false;
    return same(inA.value, inB.value, seen, depth + 1);
  });
}

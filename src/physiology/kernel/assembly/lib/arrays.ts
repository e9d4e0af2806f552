// What the compiled kernel uses in place of typed arrays: plain memory behind a length, without checks of bounds.

@final
@unmanaged
/** Stands for Float64Array. */
export class Floats {
  constructor(length: i32) {
    const start = heap.alloc(8 + ((<usize>length) << 3));
    store<i32>(start, length);
    memory.fill(start + 8, 0, (<usize>length) << 3);
    // biome-ignore lint/correctness/noConstructorReturn: an unmanaged class says so itself where its memory is
    return changetype<Floats>(start);
  }

  get length(): i32 {
    return load<i32>(changetype<usize>(this));
  }

  @operator('[]') at(i: i32): f64 {
    return load<f64>(changetype<usize>(this) + ((<usize>i) << 3), 8);
  }

  @operator('[]=') put(i: i32, value: f64): void {
    store<f64>(changetype<usize>(this) + ((<usize>i) << 3), value, 8);
  }
}

@final
@unmanaged
/** Stands for Int32Array. */
export class Integers {
  constructor(length: i32) {
    const start = heap.alloc(8 + ((<usize>length) << 2));
    store<i32>(start, length);
    memory.fill(start + 8, 0, (<usize>length) << 2);
    // biome-ignore lint/correctness/noConstructorReturn: as above
    return changetype<Integers>(start);
  }

  get length(): i32 {
    return load<i32>(changetype<usize>(this));
  }

  @operator('[]') at(i: i32): i32 {
    return load<i32>(changetype<usize>(this) + ((<usize>i) << 2), 8);
  }

  @operator('[]=') put(i: i32, value: i32): void {
    store<i32>(changetype<usize>(this) + ((<usize>i) << 2), value, 8);
  }
}

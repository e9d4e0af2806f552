/** Distances that differ by less than rounding count as one. */
const ROUNDING = 1e-15;

/** Distances of neighbouring points, each once, and which of them each point but the first has to the one before. */
export class DistinctGaps {
  /** How many there are. */
  count: i32 = 0;
  /** The first `count` are the distances. */
  readonly sizes: Float64Array;
  /** For each point the index of its distance in `sizes`. */
  readonly of: Int32Array;

  constructor(z: Float64Array) {
    this.sizes = new Float64Array(z.length);
    this.of = new Int32Array(z.length);
    for (let i = 1; i < z.length; i++) this.of[i] = this.#indexOf(z[i]! - z[i - 1]!);
  }

  #indexOf(gap: number): i32 {
    for (let k = 0; k < this.count; k++) {
      if (Math.abs(this.sizes[k]! - gap) <= ROUNDING) return k;
    }
    this.sizes[this.count] = gap;
    this.count += 1;
    return this.count - 1;
  }
}

/**
 * A polynomial of degree <= 4 held by its coefficients, lowest power first; the array may be refilled in place.
 *
 * @example
 * new Polynomial([1, 0, 2]).at(3) // 19
 */
export class Polynomial {
  readonly coefficients: Float64Array;

  constructor(coefficients: ArrayLike<number>) {
    this.coefficients = Float64Array.from(coefficients);
  }

  at(x: number): number {
    const c = this.coefficients;
    let sum = 0;
    for (let k = c.length - 1; k >= 0; k--) sum = sum * x + c[k]!;
    return sum;
  }

  slope(x: number): number {
    const c = this.coefficients;
    let sum = 0;
    for (let k = c.length - 1; k >= 1; k--) sum = sum * x + k * c[k]!;
    return sum;
  }

  curvature(x: number): number {
    const c = this.coefficients;
    let sum = 0;
    for (let k = c.length - 1; k >= 2; k--) sum = sum * x + k * (k - 1) * c[k]!;
    return sum;
  }
}

/**
 * The rising sequence nearest to the values in least squares, by pooling adjacent violators.
 *
 * Source    Ayer et al. 1955, Ann Math Stat 26:641–647 (from memory)
 *
 * @example
 * isotonic([1, 3, 2, 4])[1] // 2.5
 */
export function isotonic(values: readonly number[]): number[] {
  const blocks: { sum: number; count: number }[] = [];
  for (const value of values) {
    let block = { sum: value, count: 1 };
    for (
      let last = blocks.at(-1);
      last && last.sum / last.count >= block.sum / block.count;
      last = blocks.at(-1)
    ) {
      block = { sum: last.sum + block.sum, count: last.count + block.count };
      blocks.pop();
    }
    blocks.push(block);
  }
  return blocks.flatMap(({ sum, count }) => new Array<number>(count).fill(sum / count));
}

/**
 * Ranks from 1, ties with the mean of their ranks (midranks), in the order of the input; and the sizes of the tied groups
 * of two or more.
 */
export function midranks(values: readonly number[]): {
  readonly ranks: readonly number[];
  readonly ties: readonly number[];
} {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]! || a - b);
  const ranks = new Array<number>(values.length).fill(0);
  const ties: number[] = [];
  for (let start = 0; start < order.length;) {
    let end = start + 1;
    while (end < order.length && values[order[end]!] === values[order[start]!]) end++;
    for (let i = start; i < end; i++) ranks[order[i]!] = (start + end + 1) / 2;
    if (end - start > 1) ties.push(end - start);
    start = end;
  }
  return { ranks, ties };
}

/**
 * Moves labels along a line so that none overlaps its neighbour, by the least sum of squared moves (isotonic regression
 * of the positions less the room that earlier labels need, by pooling adjacent violators).
 *
 * @param wanted where each label's centre should be, in any order; equal ones keep the given order
 * @param lengths how long each label is, in the same unit
 * @param range the stretch that labels should stay in; labels that do not fit together overflow its end
 * @returns the centre of each label, in the given order
 */
export function spreadLabels(
  wanted: readonly number[],
  lengths: readonly number[],
  range: readonly [number, number] = [-Infinity, Infinity],
): readonly number[] {
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const offsets: number[] = [];
  order.forEach((index, place) => {
    const previous = order[place - 1];
    offsets.push(previous === undefined ? 0 : offsets[place - 1]! + (lengths[previous]! + lengths[index]!) / 2);
  });
  const pools: { sum: number; size: number }[] = [];
  order.forEach((index, place) => {
    pools.push({ sum: wanted[index]! - offsets[place]!, size: 1 });
    for (let last = pools.at(-1)!, before = pools.at(-2); before !== undefined; before = pools.at(-2)) {
      if (before.sum / before.size <= last.sum / last.size) break;
      pools.pop();
      before.sum += last.sum;
      before.size += last.size;
      last = before;
    }
  });
  const first = order[0];
  const final = order.at(-1);
  if (first === undefined || final === undefined) return [];
  const lowest = range[0] + lengths[first]! / 2;
  const highest = range[1] - lengths[final]! / 2 - offsets.at(-1)!;
  const levels = pools.flatMap(({ sum, size }) => {
    const level = Math.max(lowest, Math.min(highest, sum / size));
    return Array.from({ length: size }, () => level);
  });
  const moved = wanted.map(() => 0);
  order.forEach((index, place) => (moved[index] = levels[place]! + offsets[place]!));
  return moved;
}

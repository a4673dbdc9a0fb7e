import type { Measured, Quantity } from "../metrology/index.js";
import { isQuantity } from "../metrology/index.js";
import { holmKernel as holm } from "../statistics/tests/multiplicity.js";
import { testDifference } from "./difference-test.js";

/** Items in order of their values and the groups of them that cannot be told apart. */
export interface AlikeGroups<Item> {
  /** Smallest value first. */
  readonly order: readonly { readonly item: Item; readonly value: Quantity }[];
  /** Positions in `order`, each group as large as it can be; groups overlap, since likeness is not transitive. */
  readonly groups: readonly (readonly number[])[];
  /** Holm-adjusted p-value of each pair of positions. */
  readonly pValues: readonly (readonly number[])[];
  readonly level: number;
}

/**
 * Groups of items that cannot be told apart: every pair is tested by its difference with u(d), shared sources cancelled,
 * adjusted by Holm over all pairs; the groups are the largest sets without a significant pair, found by inserting one
 * significant pair after the other and absorbing what is contained.
 *
 * @param items in any order; those without a value are left out, equal values keep the given order
 * @param options `level`: probability of telling any two equal items apart; default 0.05
 * @returns one group of all where no pair differs; no group without items
 * @throws RangeError where the symbols differ, or the level is not between 0 and 1
 * Source: Piepho, Journal of Computational and Graphical Statistics 13 (2004) 456 (insert and absorb); Holm 1979.
 */
export function alikeGroups<Item>(
  items: readonly Item[],
  accessor: (item: Item) => Measured,
  options: { readonly level?: number } = {},
): AlikeGroups<Item> {
  const level = options.level ?? 0.05;
  if (!(level > 0 && level < 1)) throw new RangeError(`the level is ${level}; it must be between 0 and 1`);
  const order = items
    .map((item) => ({ item, value: accessor(item) }))
    .filter((entry): entry is { item: Item; value: Quantity } => isQuantity(entry.value))
    .sort((a, b) => a.value.value - b.value.value);
  const pairs = order.flatMap((_, i) => order.slice(i + 1).map((__, k) => [i, i + 1 + k] as const));
  const adjusted =
    pairs.length === 0 ? [] : holm(pairs.map(([i, j]) => testDifference(order[i]!.value, order[j]!.value).pValue));
  const pValues = order.map(() => order.map(() => 1));
  pairs.forEach(([i, j], index) => (pValues[i]![j] = pValues[j]![i] = adjusted[index]!));
  let groups: readonly (readonly number[])[] = order.length === 0 ? [] : [order.map((_, i) => i)];
  for (const [i, j] of pairs) {
    if (pValues[i]![j]! > level) continue;
    groups = absorb(
      groups.flatMap((group) =>
        group.includes(i) && group.includes(j) ? [group.filter((k) => k !== i), group.filter((k) => k !== j)] : [group],
      ),
    );
  }
  const byPlace = [...groups].sort((a, b) => a[0]! - b[0]! || a.at(-1)! - b.at(-1)!);
  return { order, groups: byPlace, pValues, level };
}

/** Drops groups that another one contains, and repeats. */
function absorb(groups: readonly (readonly number[])[]): readonly (readonly number[])[] {
  return groups.filter((group, index) =>
    groups.every((other, at) => {
      if (at === index || !group.every((k) => other.includes(k))) return true;
      return other.length === group.length && at > index;
    }),
  );
}

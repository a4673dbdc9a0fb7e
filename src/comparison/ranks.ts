import { Count, evidenceStep, jointDraws } from "../metrology/index.js";
import type { Measured, Quantity } from "../metrology/index.js";
import { gatherOwnSources } from "./own-sources.js";

export interface RankOptions {
  /** Which end of the scale comes first. */
  readonly first: "smallest" | "largest";
  /** Fixes the draws; stated beside the result. */
  readonly seed: number;
  /** Joint draws, 20,000 unless given; at least 1. */
  readonly draws?: number;
}

/** One item's place among all, with what the uncertainty leaves open. */
export interface Rank<Item> {
  readonly item: Item;
  readonly value: Quantity;
  /** 1 is first; equal values share the best of their places. */
  readonly rank: Count;
  /** 95 % interval of the rank over joint draws. */
  readonly best: Count;
  readonly worst: Count;
  /** Probability of being the first of all. */
  readonly probabilityFirst: number;
}

export interface Ranking<Item> {
  /** In order of rank; ties in order of appearance. */
  readonly ranks: readonly Rank<Item>[];
  /** Items without a value, with the reason. */
  readonly unranked: readonly { readonly item: Item; readonly reason: string }[];
  /** `beats[a][b]`: probability that the a-th of `ranks` comes before the b-th; a draw in which they are equal counts half. */
  readonly beats: readonly (readonly number[])[];
  readonly seed: number;
  readonly draws: number;
}

/**
 * Ranks items by a quantity, with the uncertainty of the ranks by Monte Carlo: the sources of all items are drawn together, so
 * that what they share moves none against the others (JCGM 101:2008 for the draws; intervals are the 2.5 % and 97.5 %
 * quantiles of each item's rank). Items without a value are listed apart, never ranked last; without items all is empty.
 *
 * @throws RangeError where the values' symbols differ
 * Source: Goldstein and Spiegelhalter, Journal of the Royal Statistical Society A 159 (1996) 385, for intervals of ranks.
 */
export function rankBy<Item>(
  items: readonly Item[],
  accessor: (item: Item) => Measured,
  options: RankOptions,
): Ranking<Item> {
  const draws = options.draws ?? 20_000;
  const present: { item: Item; value: Quantity }[] = [];
  const unranked: { item: Item; reason: string }[] = [];
  for (const item of items) {
    const value = accessor(item);
    if (value.absent) unranked.push({ item, reason: value.reason });
    else present.push({ item, value });
  }
  const symbol = present[0]?.value.symbol;
  const odd = present.find(({ value }) => value.symbol !== symbol);
  if (odd !== undefined) throw new RangeError(`cannot rank ${symbol} and ${odd.value.symbol} together`);
  const sign = options.first === "smallest" ? 1 : -1;
  present.sort((a, b) => sign * (a.value.value - b.value.value));
  const n = present.length;
  const counts = present.map(() => new Uint32Array(n));
  const before = present.map(() => new Float64Array(n));
  const order = present.map((_, i) => i);
  if (n > 0) {
    jointDraws(gatherOwnSources(present.map(({ value }) => value)), { seed: options.seed, draws }, (values) => {
      order.sort((a, b) => sign * (values[a]! - values[b]!) || a - b);
      order.forEach((index, place) => {
        counts[index]![place]!++;
        for (let later = place + 1; later < n; later++) {
          const other = order[later]!;
          const share = values[other] === values[index] ? 0.5 : 1;
          before[index]![other]! += share;
          before[other]![index]! += 1 - share;
        }
      });
    });
  }
  const ranks = present.map(({ item, value }, index) => {
    const ties = present.filter((other) => other.value.value === value.value);
    const evidence = evidenceStep(`rank among ${n}`, [value.evidence]);
    const place = (probability: number): Count =>
      new Count(quantilePlace(counts[index]!, probability * draws) + 1, evidence);
    return {
      item,
      value,
      rank: new Count(present.indexOf(ties[0]!) + 1, evidence),
      best: place(0.025),
      worst: place(0.975),
      probabilityFirst: counts[index]![0]! / draws,
    };
  });
  return {
    ranks,
    unranked,
    beats: before.map((row) => [...row].map((wins) => wins / draws)),
    seed: options.seed,
    draws,
  };
}

/** First place at which the running count reaches a target. */
function quantilePlace(counts: Uint32Array, target: number): number {
  let total = 0;
  for (let place = 0; place < counts.length; place++) {
    total += counts[place]!;
    if (total >= target) return place;
  }
  return counts.length - 1;
}

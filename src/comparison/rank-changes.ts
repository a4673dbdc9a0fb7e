import { isQuantity } from "../metrology/index.js";
import type { Measured, Quantity } from "../metrology/index.js";
import { holmKernel } from "../statistics/tests/multiplicity.js";
import { alikeBrackets } from "./alike-brackets.js";
import { alikeGroups } from "./alike-groups.js";
import { testDifference } from "./difference-test.js";
import type { Rank, RankOptions, Ranking } from "./ranks.js";
import { rankBy } from "./ranks.js";

/** Two items of which the one surely lay ahead before and surely lies behind after. */
export interface OrderReversal<Item> {
  /** Ahead before, behind after. */
  readonly falls: Item;
  readonly rises: Item;
  /** Larger of the p-values of the two differences, adjusted by Holm over all pairs. */
  readonly pValue: number;
}

export interface RankChange<Item> {
  readonly item: Item;
  readonly before: Rank<Item> | null;
  readonly after: Rank<Item> | null;
  /** Why it is not ranked in both; empty where it is. */
  readonly reason: string;
  /** `yes` where its order against at least one other item surely turned; there is no "no", since that needs a margin. */
  readonly change: "yes" | "undecided" | null;
}

/** First and last rank of a run of items that cannot be told apart. */
export interface RankBracket {
  readonly from: number;
  readonly to: number;
}

export interface RankChanges<Item> {
  readonly changes: readonly RankChange<Item>[];
  readonly reversals: readonly OrderReversal<Item>[];
  /** Pairs that would have turned at the level each taken alone, and did not all together; p as taken alone, no claim. */
  readonly turnedAlone: readonly OrderReversal<Item>[];
  readonly brackets: { readonly before: readonly RankBracket[]; readonly after: readonly RankBracket[] };
  readonly rankings: { readonly before: Ranking<Item>; readonly after: Ranking<Item> };
  readonly level: number;
}

/**
 * Ranks before and after a change, over the items that have a value in both, with brackets of those that cannot be told apart
 * and the pairs whose order surely turned. A pair turned where both differences, before and after, differ from nothing with
 * opposite signs: the larger of the two p-values is that of the pair (an intersection-union test, Berger 1982, Technometrics
 * 24:295), adjusted by Holm over all pairs, so that any false turn is stated with a probability of at most `level`.
 *
 * @param items in any order; those without a value in both are in `changes` without ranks, with the reason
 * @param before, after the value on each side, in one unit of measure a side
 * @param options as of `rankBy`; `level`: default 0.05
 */
export function rankChanges<Item>(
  items: readonly Item[],
  sides: { readonly before: (item: Item) => Measured; readonly after: (item: Item) => Measured },
  options: RankOptions & { readonly level?: number },
): RankChanges<Item> {
  const { level = 0.05, ...ranked } = options;
  const inBoth = items.filter((item) => isQuantity(sides.before(item)) && isQuantity(sides.after(item)));
  const rankings = { before: rankBy(inBoth, sides.before, ranked), after: rankBy(inBoth, sides.after, ranked) };
  const pairs = pairsOf(inBoth, sides, options.first === "smallest" ? 1 : -1);
  const adjusted = pairs.length === 0 ? [] : holmKernel(pairs.map(({ pValue }) => pValue));
  const reversals = pairs.map((pair, i) => ({ ...pair, pValue: adjusted[i]! })).filter(({ pValue }) => pValue <= level);
  const turned = new Set(reversals.flatMap(({ falls, rises }) => [falls, rises]));
  const find = (ranking: Ranking<Item>, item: Item): Rank<Item> | null =>
    ranking.ranks.find((rank) => rank.item === item) ?? null;
  return {
    changes: items.map((item): RankChange<Item> => {
      if (!inBoth.includes(item)) return { item, before: null, after: null, reason: whyNot(item, sides), change: null };
      const [before, after] = [find(rankings.before, item), find(rankings.after, item)];
      return { item, before, after, reason: "", change: turned.has(item) ? "yes" : "undecided" };
    }),
    reversals,
    turnedAlone: pairs.filter(({ pValue }, i) => pValue <= level && !(adjusted[i]! <= level)),
    brackets: {
      before: bracketsOf(rankings.before, sides.before, level),
      after: bracketsOf(rankings.after, sides.after, level),
    },
    rankings,
    level,
  };
}

/** Every pair with the p-value of its turn, taken alone; 1 where its order by value did not turn. */
function pairsOf<Item>(
  items: readonly Item[],
  sides: { readonly before: (item: Item) => Measured; readonly after: (item: Item) => Measured },
  sign: 1 | -1,
): readonly OrderReversal<Item>[] {
  return items.flatMap((a, i) =>
    items.slice(i + 1).map((b) => {
      const before = testDifference(sides.before(a) as Quantity, sides.before(b) as Quantity);
      const after = testDifference(sides.after(a) as Quantity, sides.after(b) as Quantity);
      const [first, last] = [sign * before.difference.value, sign * after.difference.value];
      const isTurned = first * last < 0;
      const [falls, rises] = first < 0 ? [a, b] : [b, a];
      return { falls, rises, pValue: isTurned ? Math.max(before.pValue, after.pValue) : 1 };
    }),
  );
}

/** Brackets in ranks; where equal values share a rank, both ends take the shared one. */
function bracketsOf<Item>(
  { ranks }: Ranking<Item>,
  accessor: (item: Item) => Measured,
  level: number,
): readonly RankBracket[] {
  const groups = alikeGroups(
    ranks.map(({ item }) => item),
    accessor,
    { level },
  );
  const rankAt = (position: number): number =>
    ranks.find(({ item }) => item === groups.order[position]!.item)!.rank.count;
  return alikeBrackets(groups).brackets.map(({ first, last }) => {
    const ends = [rankAt(first), rankAt(last)];
    return { from: Math.min(...ends), to: Math.max(...ends) };
  });
}

function whyNot<Item>(
  item: Item,
  sides: { readonly before: (item: Item) => Measured; readonly after: (item: Item) => Measured },
): string {
  const missing = [sides.before(item), sides.after(item)].find((measured) => measured.absent);
  return missing?.absent ? missing.reason : "";
}

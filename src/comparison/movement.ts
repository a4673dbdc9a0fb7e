import { expand, isQuantity } from "../metrology/index.js";
import type { Measured, Quantity, Verdict } from "../metrology/index.js";
import { holmKernel as holm } from "../statistics/tests/multiplicity.js";
import { equivalencePValue, zeroPValue } from "./difference-test.js";

export interface Movement<Item> {
  readonly item: Item;
  /** New minus old. */
  readonly change: Measured;
  readonly verdict: Verdict;
  /** Holm-adjusted over the items; null where there is no change to test. */
  readonly pMoved: number | null;
  /** Holm-adjusted p-value of the two one-sided tests; null without a smallest change that matters. */
  readonly pSame: number | null;
  /** What a reader must know beside the word, as a sentence; empty where nothing. */
  readonly note: string;
}

export interface MovementOptions<Item> {
  /** In the changes' symbol, one for all or one an item; absent: only "moved" and "cannot tell" can be said of it. */
  readonly smallestChange?: Quantity | undefined | ((item: Item) => Quantity | undefined);
  /** Probability of any false word of either kind in the table; default 0.05. */
  readonly level?: number;
}

/**
 * Says of each item whether it moved, did not move, or cannot be told (measurement model, section 5). *Did not move*: both
 * one-sided tests against ± the smallest change that matters are rejected, and U of the change is not larger than it, since
 * such a bench cannot show it. *Moved*: no difference is rejected, and it is not "did not move". Both families are adjusted by Holm over all items of one call, whatever their characteristic, so that
 * a table of several characteristics has one false "moved" with a probability of at most `level`.
 *
 * @param items units, or rows of unit and characteristic, in any order; an item without a change is "cannot tell"
 * @param accessor new minus old, with shared sources already cancelled
 * @throws RangeError where a smallest change is not above 0 or has another symbol than its change
 * Source: Holm 1979 and Schuirmann 1987, as `holmKernel` and `equivalencePValue` state.
 */
export function movements<Item>(
  items: readonly Item[],
  accessor: (item: Item) => Measured,
  options: MovementOptions<Item> = {},
): readonly Movement<Item>[] {
  const level = options.level ?? 0.05;
  if (!(level > 0 && level < 1)) throw new RangeError(`the level is ${level}; it must be between 0 and 1`);
  const marginOf = (item: Item): Quantity | undefined =>
    typeof options.smallestChange === "function" ? options.smallestChange(item) : options.smallestChange;
  const rows = items.map((item, index) => ({ item, index, change: accessor(item), margin: marginOf(item) }));
  const tested = rows.flatMap((row) => (isQuantity(row.change) ? [{ ...row, change: row.change }] : []));
  const withMargin = tested.flatMap((row) => (row.margin === undefined ? [] : [{ ...row, margin: row.margin }]));
  const moved = adjusted(tested, ({ change }) => zeroPValue(change));
  const same = adjusted(withMargin, ({ change, margin }) => equivalencePValue(change, margin));
  return rows.map(({ item, index, change, margin }): Movement<Item> => {
    const rule =
      `zero-difference test, Holm over ${tested.length} at ${level * 100} %` +
      (margin === undefined
        ? "; no smallest change that matters is stated"
        : `, and two one-sided tests against ±${margin.value} ${margin.symbol}, Holm over ${withMargin.length}, where U is no larger`);
    const cites = margin === undefined ? [change] : [change, margin];
    const head = { kind: "verdict", family: "change", rule, cites } as const;
    if (!isQuantity(change)) {
      const verdict: Verdict = { ...head, outcome: "undecided", statement: `no change to judge: ${change.reason}` };
      return { item, change, verdict, pMoved: null, pSame: null, note: change.reason };
    }
    const pMoved = moved.get(index)!;
    const pSame = same.get(index) ?? null;
    const isSame = pSame !== null && pSame <= level && expand(change).U <= margin!.value;
    const outcome = isSame ? "no" : pMoved <= level ? "yes" : "undecided";
    const verdict: Verdict = { ...head, outcome, statement: statements[outcome] };
    return { item, change, verdict, pMoved, pSame, note: noteOf(change, margin, outcome) };
  });
}

/** Holm-adjusted p-values by the place of the row's item. */
function adjusted<Row extends { readonly index: number }>(
  rows: readonly Row[],
  pValue: (row: Row) => number,
): ReadonlyMap<number, number> {
  const p = rows.length === 0 ? [] : holm(rows.map(pValue));
  return new Map(rows.map(({ index }, place) => [index, p[place]!]));
}

const statements: Readonly<Record<Verdict["outcome"], string>> = {
  yes: "the change differs from nothing",
  no: "the change is smaller than the smallest change that matters",
  undecided: "neither a change nor its absence is shown",
};

function noteOf(change: Quantity, margin: Quantity | undefined, outcome: Verdict["outcome"]): string {
  if (margin === undefined) return "";
  const { U } = expand(change);
  const size = Math.abs(change.value);
  if (outcome === "yes" && size - U < margin.value) return "its size may not matter";
  if (outcome === "undecided" && U > margin.value) return "this bench cannot show that it did not move";
  return "";
}

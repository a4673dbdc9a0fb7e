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

/**
 * Says of each item whether it moved, did not move, or cannot be told (measurement model, section 5). *Did not move*: both
 * one-sided tests against ± the smallest change that matters are rejected. *Moved*: no difference is rejected, and it is
 * not "did not move". Both families are adjusted by Holm over the items, at 5 %.
 *
 * @param smallestChange in the changes' symbol; absent: only "moved" and "cannot tell" can be said
 */
export function movements<Item>(
  items: readonly Item[],
  accessor: (item: Item) => Measured,
  options: { readonly smallestChange?: Quantity; readonly level?: number } = {},
): readonly Movement<Item>[] {
  const level = options.level ?? 0.05;
  const margin = options.smallestChange;
  const changes = items.map(accessor);
  const present = changes.filter(isQuantity);
  const moved = holm(present.map(zeroPValue));
  const same = margin === undefined ? null : holm(present.map((change) => equivalencePValue(change, margin)));
  const rule =
    `zero-difference test and two one-sided tests, each adjusted by Holm over ${present.length} items at ${level * 100} %` +
    (margin === undefined ? "; no smallest change that matters is stated" : "");
  return items.map((item, index): Movement<Item> => {
    const change = changes[index]!;
    const head = { kind: "verdict", family: "change", rule, cites: margin ? [change, margin] : [change] } as const;
    if (!isQuantity(change)) {
      const verdict: Verdict = { ...head, outcome: "undecided", statement: `no change to judge: ${change.reason}` };
      return { item, change, verdict, pMoved: null, pSame: null, note: change.reason };
    }
    const at = present.indexOf(change);
    const pMoved = moved[at]!;
    const pSame = same?.[at] ?? null;
    const outcome = pSame !== null && pSame <= level ? "no" : pMoved <= level ? "yes" : "undecided";
    return {
      item,
      change,
      verdict: { ...head, outcome, statement: statementOf(outcome) },
      pMoved,
      pSame,
      note: noteOf(change, margin, outcome),
    };
  });
}

function statementOf(outcome: Verdict["outcome"]): string {
  if (outcome === "yes") return "the change differs from nothing";
  return outcome === "no"
    ? "the change is smaller than the smallest change that matters"
    : "neither a change nor its absence is shown";
}

function noteOf(change: Quantity, margin: Quantity | undefined, outcome: Verdict["outcome"]): string {
  if (margin === undefined) return "";
  const { U } = expand(change);
  const size = Math.abs(change.value);
  if (outcome === "yes" && size - U < margin.value) return "its size may not matter";
  if (outcome === "undecided" && U > margin.value) return "this bench cannot show that it did not move";
  return "";
}

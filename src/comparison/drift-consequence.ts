import { Absent, Quantity, normalSource, evidenceStep, expand, isQuantity, sum } from "../metrology/index.js";
import type { Component, Measured } from "../metrology/index.js";
import { isoDay } from "./doubtful-spans.js";

/** What follows for a result that a shifted rig gave. */
export type DriftAction = "no action" | "re-issue" | "retest";

export interface DriftConsequence<Item> {
  readonly item: Item;
  readonly result: Measured;
  /** `may be shifted`: before the first failed check, so between nothing and all of the shift; `shifted`: from then on. */
  readonly standing: "may be shifted" | "shifted";
  /** What the whole shift does to the result, in the result's own unit of measure. */
  readonly effect: Measured;
  /** |effect| / U of the result; null where either is absent or U is 0. */
  readonly share: number | null;
  /** What is added to the result: the effect or half of it, taken off, with what is not known of it; its U is the correction's. */
  readonly correction: Measured;
  /** The result and its correction together, of which the rig's own part is common; what a re-issue would print. */
  readonly corrected: Measured;
  readonly action: DriftAction;
  /** Why, as a clause. */
  readonly reason: string;
}

export interface DriftOptions<Item> {
  /** ISO date or instant at which an item was measured. */
  readonly date: (item: Item) => string;
  readonly result: (item: Item) => Measured;
  /** What the shift does to a result: for a span (value) => value times the shift, for a zero the shift itself. */
  readonly effect: (result: Quantity, item: Item) => Measured;
  /** The span of time; see `doubtfulSpans`. Its end days belong to it, since the hour of a check is not recorded. */
  readonly span: { readonly from: string | null; readonly until: string | null; readonly firstFailed: string };
  /** Names the shift in budgets and keeps its unknown onset apart from others: `rig/tester-2/shift/2026-05-11`. */
  readonly id: string;
  /** Largest share of U that needs no action; default 1/3, which lowers the coverage of a 95 % interval to 90 %. */
  readonly negligible?: number;
  /** Largest growth of U that a correction may bring; default 2. */
  readonly growth?: number;
}

/**
 * The consequence of a drifted rig for every result between the last good and the next good check (measurement model,
 * section 7): *no action* where the effect and its own U together stay within a third of the result's U; *re-issue* where
 * taking the effect off leaves a U of at most twice the published one; otherwise *retest*. Before the first failed check
 * nobody knows whether the shift was there, so the correction is half of it, with that half as its standard uncertainty: the
 * value of a quantity that is one of two.
 *
 * @param items results or sessions, in any order; those outside the span are left out
 * @throws RangeError on options out of range, and where an effect has another symbol than its result
 * Source: the two shares are this project's ruling; the correction is JCGM 100:2008, 3.2.4 and 4.3.7.
 */
export function driftConsequences<Item>(
  items: readonly Item[],
  options: DriftOptions<Item>,
): readonly DriftConsequence<Item>[] {
  const { negligible = 1 / 3, growth = 2, span } = options;
  if (!(negligible >= 0 && negligible <= 1)) throw new RangeError(`negligible is ${negligible}; it must be 0 to 1`);
  if (!(growth >= 1)) throw new RangeError(`growth is ${growth}; it must be at least 1`);
  return items.flatMap((item) => {
    const day = isoDay(options.date(item));
    if ((span.from !== null && day < span.from) || (span.until !== null && day > span.until)) return [];
    const standing = day < span.firstFailed ? "may be shifted" : "shifted";
    return [consequenceOf(item, standing, options, { negligible, growth })];
  });
}

function consequenceOf<Item>(
  item: Item,
  standing: DriftConsequence<Item>["standing"],
  options: DriftOptions<Item>,
  limits: { readonly negligible: number; readonly growth: number },
): DriftConsequence<Item> {
  const result = options.result(item);
  const say = (
    effect: Measured,
    made: { readonly correction: Measured; readonly corrected: Measured },
    share: number | null,
    action: DriftAction,
    reason: string,
  ): DriftConsequence<Item> => ({ item, result, standing, effect, share, ...made, action, reason });
  if (!isQuantity(result)) {
    const none = new Absent(result.symbol, result.reason, result.evidence);
    return say(none, { correction: none, corrected: none }, null, "no action", `there is no result: ${result.reason}`);
  }
  const effect = options.effect(result, item);
  if (effect.symbol !== result.symbol) {
    throw new RangeError(`the shift's effect is in ${effect.symbol}, the result in ${result.symbol}`);
  }
  if (!isQuantity(effect)) {
    return say(
      effect,
      { correction: effect, corrected: effect },
      null,
      "retest",
      `the size of the effect is not known: ${effect.reason}`,
    );
  }
  const { U } = expand(result);
  const share = U > 0 ? Math.abs(effect.value) / U : null;
  const correction = correctionFor(effect, standing, options.id);
  const corrected = sum(result, correction);
  const made = { correction, corrected };
  const largest = Math.abs(effect.value) + expand(effect).U;
  if (largest <= limits.negligible * U) {
    return say(effect, made, share, "no action", `the effect is at most ${percent(largest / U)} of its U`);
  }
  const grown = U > 0 ? expand(corrected).U / U : Infinity;
  if (grown <= limits.growth) {
    return say(effect, made, share, "re-issue", `corrected, its U becomes ${grown.toFixed(2)} of the published one`);
  }
  const why =
    U > 0 ? `a correction would make its U ${grown.toFixed(1)} times as large` : "the result states no uncertainty";
  return say(effect, made, share, "retest", why);
}

/** The effect taken off, or half of it where the shift may not have been there yet: that half is then its standard uncertainty. */
function correctionFor(effect: Quantity, standing: DriftConsequence<unknown>["standing"], id: string): Quantity {
  const share = standing === "shifted" ? 1 : 0.5;
  const evidence = evidenceStep(
    share === 1
      ? "shift of the rig, taken off"
      : "half of the shift of the rig, taken off, for it is one of none and all",
    [effect.evidence],
  );
  const minus = effect.components.map(({ source, contribution }): Component => ({
    source,
    contribution: -share * contribution,
  }));
  const onset = normalSource(`${id}/onset`, "Whether the rig had shifted yet", 1, "1");
  const unknown = share === 1 ? [] : [{ source: onset, contribution: -effect.value / 2 }];
  return new Quantity(-share * effect.value, effect.symbol, [...minus, ...unknown], evidence);
}

function percent(share: number): string {
  return `${Math.max(1, Math.round(share * 100))}\u00a0%`;
}

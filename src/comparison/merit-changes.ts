import { difference, isQuantity } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";
import { Absent } from "../metrology/index.js";
import { gradeOf } from "./merit-curve.js";
import type { Merit, MeritStates, Merits } from "./merits.js";

/** From this probability on a change is stated; below it, there is no safe choice (measurement model, section 5). */
export const safeProbability = 0.95;

/** One item's merit and grade in two states of the same draws. */
export interface MeritChange<Item> {
  readonly item: Item;
  readonly before: Merit<Item>;
  readonly after: Merit<Item>;
  /** After less before, with what both share cancelled. */
  readonly change: Measured<"1">;
  /** Probability that the two grades differ in one draw; null where there is no merit on a side. */
  readonly probabilityOtherGrade: number | null;
  /** `yes` where they differ in 95 % of the draws or more, `no` where they are the same in as many, else `undecided`. */
  readonly gradeChanges: "yes" | "no" | "undecided";
}

/** One place among the picks that another item would take by value. */
export interface PickSwap<Item> {
  readonly item: Item;
  /** Probability of the order that the swap needs: ahead of every item that it displaces, or behind every one that enters. */
  readonly probability: number;
  readonly isSafe: boolean;
}

export interface PickChanges<Item> {
  /** Among the best by value in both states. */
  readonly kept: readonly Item[];
  readonly entering: readonly PickSwap<Item>[];
  readonly leaving: readonly PickSwap<Item>[];
  /** `unchanged`: no swap by value; `changed`: every swap is safe; `no safe choice`: at least one is not. */
  readonly outcome: "unchanged" | "changed" | "no safe choice";
}

/**
 * Merit and grade of every item in two states, and how surely the grade differs, from draws of both states together.
 * @param before, after positions of the states
 * @returns in the order of the state after
 */
export function meritChanges<Item>(
  { states, drawn }: MeritStates<Item>,
  before: number,
  after: number,
): readonly MeritChange<Item>[] {
  const [old, now] = [stateAt(states, before), stateAt(states, after)];
  return now.merits.map((merit): MeritChange<Item> => {
    const earlier = old.merits.find(({ item }) => item === merit.item)!;
    const [a, b] = [drawn(before, merit.item), drawn(after, merit.item)];
    const other =
      a === null || b === null ? null : shareOf(a.length, (i) => (grade(old, a[i]!) === grade(now, b[i]!) ? 0 : 1));
    return {
      item: merit.item,
      before: earlier,
      after: merit,
      change: changeOf(earlier.merit, merit.merit),
      probabilityOtherGrade: other,
      gradeChanges:
        other === null
          ? "undecided"
          : other >= safeProbability
            ? "yes"
            : other <= 1 - safeProbability
              ? "no"
              : "undecided",
    };
  });
}

/**
 * How the picks change from one state to another. By value alone some items enter and some leave; an item enters safely where
 * it lies ahead of every leaving one in 95 % of the draws of the state after, and leaves safely where it lies behind every
 * entering one in as many. Equal merits count half. Only items that have a merit in both states take part, so that a pick
 * does not change because a unit was measured under one method alone.
 */
export function pickChanges<Item>(
  { states, drawn }: MeritStates<Item>,
  before: number,
  after: number,
): PickChanges<Item> {
  const [old, now] = [stateAt(states, before), stateAt(states, after)];
  const inBoth = now.merits
    .map(({ item }) => item)
    .filter((item) => drawn(before, item) !== null && drawn(after, item) !== null);
  const [earlier, later] = [bestOf(old, inBoth), bestOf(now, inBoth)];
  const enters = later.filter((item) => !earlier.includes(item));
  const leaves = earlier.filter((item) => !later.includes(item));
  const swap = (item: Item, against: readonly Item[], sign: 1 | -1): PickSwap<Item> => {
    const own = drawn(after, item)!;
    const others = against.map((other) => drawn(after, other)!);
    const probability = shareOf(own.length, (i) => {
      const gap = Math.min(...others.map((other) => sign * (own[i]! - other[i]!)));
      return gap > 0 ? 1 : gap === 0 ? 0.5 : 0;
    });
    return { item, probability, isSafe: probability >= safeProbability };
  };
  const entering = enters.map((item) => swap(item, leaves, 1));
  const leaving = leaves.map((item) => swap(item, enters, -1));
  const swaps = [...entering, ...leaving];
  return {
    kept: later.filter((item) => earlier.includes(item)),
    entering,
    leaving,
    outcome: swaps.length === 0 ? "unchanged" : swaps.every(({ isSafe }) => isSafe) ? "changed" : "no safe choice",
  };
}

/** The best by value among some items; all of those that are equal at the last place. */
function bestOf<Item>({ merits, scoring }: Merits<Item>, among: readonly Item[]): readonly Item[] {
  const ranked = merits.flatMap(({ item, merit }) =>
    isQuantity(merit) && among.includes(item) ? [{ item, value: merit.value }] : [],
  );
  return ranked
    .filter(({ value }) => ranked.filter((other) => other.value > value).length < scoring.picks)
    .map(({ item }) => item);
}

function changeOf(before: Measured<"1">, after: Measured<"1">): Measured<"1"> {
  if (!isQuantity(before)) return new Absent("1", before.reason);
  return isQuantity(after) ? difference(after, before) : new Absent("1", after.reason);
}

function grade({ scoring }: Merits<unknown>, merit: number): string {
  return gradeOf(scoring.grades, merit);
}

function stateAt<Item>(states: readonly Merits<Item>[], at: number): Merits<Item> {
  const state = states[at];
  if (state === undefined) throw new RangeError(`there are ${states.length} states, none at ${at}`);
  return state;
}

function shareOf(draws: number, weight: (draw: number) => number): number {
  let total = 0;
  for (let draw = 0; draw < draws; draw++) total += weight(draw);
  return total / draws;
}

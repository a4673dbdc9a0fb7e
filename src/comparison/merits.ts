import type { ScoringMethod } from "../records/archive.js";
import { Absent, evidenceStep, jointDraws } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";
import { drawnTogether } from "./drawn-together.js";
import { gradeOf } from "./merit-curve.js";
import type { MeritInputs, MeritPart, MeritRow } from "./merit-row.js";
import { meritRow } from "./merit-row.js";
import { gatherOwnSources } from "./own-sources.js";

export interface Merit<Item> {
  readonly item: Item;
  /** Weighted merit, 0 to 1; its components are those of the joint draws, shared by all merits of one call. */
  readonly merit: Measured<"1">;
  /** 95 % interval over the draws; null where there is no merit. */
  readonly interval: readonly [number, number] | null;
  /** The grade of the value itself. */
  readonly grade: string | null;
  /** Probability of each grade, in the scoring method's order. */
  readonly grades: readonly { readonly name: string; readonly probability: number }[];
  /** Probability of being among the picks; items that are equal in a draw share the places that they compete for. */
  readonly probabilityPicked: number;
  readonly parts: readonly MeritPart[];
}

export interface Merits<Item> {
  readonly purpose: string;
  readonly scoring: ScoringMethod;
  /** Best first, equal ones in the given order; items without a merit last, with their reason. */
  readonly merits: readonly Merit<Item>[];
  /** The best items by value; more than the method's number of picks where equal merits compete for the last place. */
  readonly best: readonly Item[];
  /** The recommended items where their set is safe at 95 %; else null: "no safe choice". */
  readonly picks: readonly Item[] | null;
  /** Probability that exactly the items of `best` are the best ones; 0 where equal merits compete. */
  readonly probabilityOfPicks: number;
  readonly seed: number;
  readonly draws: number;
}

/** One way of scoring the items: under old values and weights, under new ones. */
export interface MeritState<Item> {
  /** Unique among the states: "keystroke@1, scoring@1". */
  readonly name: string;
  readonly scoring: ScoringMethod;
  readonly inputsOf: (item: Item) => MeritInputs;
}

export interface MeritOptions {
  readonly purpose: string;
  /** Fixes the draws; stated beside the result. */
  readonly seed: number;
  /** Joint draws, 5,000 unless given; then a share of 95 % has a standard error of 0.3 %. */
  readonly draws?: number;
}

/** Merits in several states from the same draws, so that states can be compared draw by draw. */
export interface MeritStates<Item> {
  readonly states: readonly Merits<Item>[];
  /** Merit of an item in a state in every draw; null where it has none. */
  readonly drawn: (state: number, item: Item) => Float64Array | null;
}

const usualDraws = 5_000;

/**
 * Merits of all items for one purpose, by a scoring method's curves and weights, with the uncertainty carried by Monte Carlo
 * over the components: what several results share is drawn once a draw for all of them (measurement model, section 5;
 * JCGM 101:2008, clause 7). The rule for a missing connection is that of `meritRow`.
 *
 * @param items each at most once
 * @throws RangeError for a purpose or characteristic that the method does not define, and for draws below 2
 */
export function meritsFor<Item>(
  items: readonly Item[],
  inputsOf: (item: Item) => MeritInputs,
  scoring: ScoringMethod,
  options: MeritOptions,
): Merits<Item> {
  return meritStates(items, [{ name: scoring.id, scoring, inputsOf }], options).states[0]!;
}

/** The same items in several states, all drawn together; see `meritsFor`. */
export function meritStates<Item>(
  items: readonly Item[],
  states: readonly MeritState<Item>[],
  options: MeritOptions,
): MeritStates<Item> {
  const draws = options.draws ?? usualDraws;
  if (!(Number.isInteger(draws) && draws >= 2)) throw new RangeError(`the draws are ${draws}; they must be at least 2`);
  const rows = states.map(({ inputsOf, scoring }) =>
    items.map((item) => meritRow(inputsOf(item), scoring, options.purpose)),
  );
  const scored = rows.map((list) => list.map((row) => (row.reason === null ? new Float64Array(draws) : null)));
  const places = rows.flatMap((list, state) =>
    list.flatMap((row, at) => {
      const into = scored[state]![at] ?? null;
      return into === null ? [] : [{ row, into }];
    }),
  );
  // A result that stands in two states is drawn once: gathered twice, its own sources would pass for shared ones.
  const unique = [...new Set(places.flatMap(({ row }) => row.values.filter((value) => value !== null)))];
  const position = new Map(unique.map((quantity, index) => [quantity, index]));
  const indices = places.map(({ row }) => row.values.map((value) => (value === null ? null : position.get(value)!)));
  jointDraws(gatherOwnSources(unique), { seed: options.seed, draws }, (values, draw) => {
    places.forEach(({ row, into }, place) => {
      into[draw] = row.meritOf(indices[place]!.map((index) => (index === null ? null : values[index]!)));
    });
  });
  const central = rows.map((list) => list.map((row) => row.meritOf(row.values.map((v) => v?.value ?? null))));
  const quantityOf = asQuantities(rows, scored, central, { states, options });
  return {
    states: states.map(({ scoring }, state) =>
      meritsOf(items, rows[state]!, scored[state]!, {
        scoring,
        central: central[state]!,
        merit: (at) => quantityOf(state, at),
        options: { ...options, draws },
      }),
    ),
    drawn: (state, item) => scored[state]?.[items.indexOf(item)] ?? null,
  };
}

type Scored = readonly (Float64Array | null)[];

function asQuantities<Item>(
  rows: readonly (readonly MeritRow[])[],
  scored: readonly Scored[],
  central: readonly (readonly number[])[],
  { states, options }: { readonly states: readonly MeritState<Item>[]; readonly options: MeritOptions },
): (state: number, at: number) => Measured<"1"> {
  const results = rows.flatMap((list, state) =>
    list.flatMap((row, at) => {
      const draws = scored[state]![at] ?? null;
      if (draws === null) return [];
      const evidence = evidenceStep(
        `merit for ${options.purpose.replaceAll("_", " ")} by ${states[state]!.scoring.id}`,
        row.values.flatMap((value) => (value === null ? [] : [value.evidence])),
      );
      return [{ state, at, value: central[state]![at]!, draws, evidence }];
    }),
  );
  const names = states.map(({ name }) => name).join(" | ");
  const id = `merit/${options.purpose}/${names}/${options.seed}/${results.map(({ value }) => value.toPrecision(6)).join(",")}`;
  const quantities = drawnTogether(id, "Joint draws of the results behind the merit", results);
  const found = new Map(results.map(({ state, at }, index) => [`${state}/${at}`, quantities[index]!]));
  return (state, at) => found.get(`${state}/${at}`) ?? new Absent("1", rows[state]![at]!.reason ?? "");
}

function meritsOf<Item>(
  items: readonly Item[],
  rows: readonly MeritRow[],
  scored: Scored,
  given: {
    readonly scoring: ScoringMethod;
    readonly central: readonly number[];
    readonly merit: (at: number) => Measured<"1">;
    readonly options: MeritOptions & { readonly draws: number };
  },
): Merits<Item> {
  const { scoring, central, merit, options } = given;
  const present = items.map((_, at) => at).filter((at) => scored[at] !== null);
  const order = [...present].sort((a, b) => central[b]! - central[a]! || a - b);
  const best = order.filter((at) => order.filter((other) => central[other]! > central[at]!).length < scoring.picks);
  const { picked, together } = tallyPicks(present, scored, { best, picks: scoring.picks, draws: options.draws });
  const absent = items.map((_, at) => at).filter((at) => scored[at] === null);
  return {
    purpose: options.purpose,
    scoring,
    merits: [...order, ...absent].map((at) => {
      const draws = scored[at] ?? null;
      return {
        item: items[at]!,
        merit: merit(at),
        interval: draws === null ? null : intervalOf(draws),
        grade: draws === null ? null : gradeOf(scoring.grades, central[at]!),
        grades: draws === null ? [] : gradeShares(draws, scoring),
        probabilityPicked: picked.get(at) ?? 0,
        parts: rows[at]!.parts,
      };
    }),
    best: best.map((at) => items[at]!),
    picks: together >= 0.95 ? best.map((at) => items[at]!) : null,
    probabilityOfPicks: together,
    seed: options.seed,
    draws: options.draws,
  };
}

/** How often each is among the best, and how often exactly those of `best` are. */
function tallyPicks(
  present: readonly number[],
  scored: Scored,
  { best, picks, draws }: { readonly best: readonly number[]; readonly picks: number; readonly draws: number },
): { readonly picked: ReadonlyMap<number, number>; readonly together: number } {
  const places = Math.min(picks, present.length);
  const shares = new Map(present.map((at) => [at, 0]));
  let together = 0;
  for (let draw = 0; draw < draws; draw++) {
    const merits = present.map((at) => scored[at]![draw]!).sort((a, b) => b - a);
    const threshold = merits[places - 1] ?? Infinity;
    const above = merits.filter((value) => value > threshold).length;
    const level = merits.filter((value) => value === threshold).length;
    for (const at of present) {
      const value = scored[at]![draw]!;
      if (value > threshold) shares.set(at, shares.get(at)! + 1);
      else if (value === threshold) shares.set(at, shares.get(at)! + (places - above) / level);
    }
    const isClear = above + level === places;
    if (isClear && best.length === places && best.every((at) => scored[at]![draw]! >= threshold)) together++;
  }
  return { picked: new Map([...shares].map(([at, share]) => [at, share / draws])), together: together / draws };
}

function intervalOf(draws: Float64Array): readonly [number, number] {
  const sorted = draws.slice().sort();
  const at = (p: number): number => sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))]!;
  return [at(0.025), at(0.975)];
}

function gradeShares(draws: Float64Array, scoring: ScoringMethod): Merit<unknown>["grades"] {
  const counts = new Map(scoring.grades.map(({ name }) => [name, 0]));
  for (const value of draws) {
    const name = gradeOf(scoring.grades, value);
    counts.set(name, counts.get(name)! + 1);
  }
  return scoring.grades.map(({ name }) => ({ name, probability: counts.get(name)! / draws.length }));
}

import type { ScoringMethod } from "../records/archive.js";
import { Absent, Quantity, evidenceStep, isQuantity, jointDraws } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";

/** What the merit of one unit for one purpose rests on: its characteristics by the scoring method's names. */
export type MeritInputs = Readonly<Record<string, Measured>>;

export interface Merit<Item> {
  readonly item: Item;
  /** Weighted merit, 0 to 1; a ratio without components: its interval comes from the draws. */
  readonly merit: Measured<"1">;
  /** 95 % interval over joint draws; null where there is no merit. */
  readonly interval: readonly [number, number] | null;
  /** The grade of the value itself. */
  readonly grade: string | null;
  /** Probability of each grade, in the scoring method's order. */
  readonly grades: readonly { readonly name: string; readonly probability: number }[];
  /** Probability of being among the picks. */
  readonly probabilityPicked: number;
  /** Share of the merit by characteristic. */
  readonly parts: readonly {
    readonly characteristic: string;
    readonly weight: number;
    readonly merit: number | null;
  }[];
}

export interface Merits<Item> {
  readonly purpose: string;
  /** Best first; items without a merit last, with their reason. */
  readonly merits: readonly Merit<Item>[];
  /** The recommended items where their set is safe at 95 %; else null: "no safe choice". */
  readonly picks: readonly Item[] | null;
  /** Probability that exactly the first `picks` items are the best ones. */
  readonly probabilityOfPicks: number;
  readonly seed: number;
  readonly draws: number;
}

/** Piecewise-linear merit of a value, flat outside its points; points must rise in value. */
export function meritCurve(points: readonly (readonly [number, number])[], value: number): number {
  const first = points[0];
  if (first === undefined) throw new RangeError("a merit curve needs at least one point");
  if (value <= first[0]) return first[1];
  for (let i = 1; i < points.length; i++) {
    const [x1, y1] = points[i]!;
    const [x0, y0] = points[i - 1]!;
    if (!(x1 > x0)) throw new RangeError(`a merit curve's points must rise: ${x1} follows ${x0}`);
    if (value <= x1) return y0 + ((value - x0) / (x1 - x0)) * (y1 - y0);
  }
  return points.at(-1)![1];
}

/**
 * Merits of all items for one purpose, by a scoring method's curves and weights, with the uncertainty carried by Monte Carlo
 * over the components: sources shared by several items are drawn once a draw for all of them (measurement model, section 5).
 * A missing connection (`latency`) follows the method's rule; another missing characteristic leaves the item unscored.
 *
 * @throws RangeError for a purpose or characteristic that the method does not define
 */
export function meritsFor<Item>(
  items: readonly Item[],
  inputsOf: (item: Item) => MeritInputs,
  scoring: ScoringMethod,
  options: { readonly purpose: string; readonly seed: number; readonly draws?: number },
): Merits<Item> {
  const weights = scoring.purposes[options.purpose];
  if (weights === undefined) {
    const known = Object.keys(scoring.purposes).join(", ");
    throw new RangeError(`${scoring.id} has no purpose "${options.purpose}"; it has ${known}`);
  }
  const characteristics = Object.keys(weights);
  for (const name of characteristics) {
    if (scoring.curves[name] === undefined)
      throw new RangeError(`${scoring.id} weighs ${name} but has no curve for it`);
  }
  const draws = options.draws ?? 20_000;
  const rows = items.map((item) => scoreRow(item, inputsOf(item), characteristics, weights, scoring));
  const scored = rows.filter((row) => row.reason === null);
  const quantities = scored.flatMap((row) => row.values.filter((v) => v !== null));
  const drawn = scored.map(() => new Float64Array(draws));
  const picked = new Uint32Array(scored.length);
  const central = scored.map((row) => row.meritOf(row.values.map((v) => v?.value ?? null)));
  const order = scored.map((_, i) => i);
  const best = [...order].sort((a, b) => central[b]! - central[a]! || a - b).slice(0, scoring.picks);
  let sameSet = 0;
  if (scored.length > 0) {
    jointDraws(quantities, { seed: options.seed, draws }, (values, draw) => {
      let next = 0;
      scored.forEach((row, i) => {
        drawn[i]![draw] = row.meritOf(row.values.map((v) => (v === null ? null : values[next++]!)));
      });
      order.sort((a, b) => drawn[b]![draw]! - drawn[a]![draw]! || a - b);
      const chosen = order.slice(0, scoring.picks);
      for (const index of chosen) picked[index]!++;
      if (best.every((index) => chosen.includes(index))) sameSet++;
    });
  }
  const merits = scored.map((row, i): Merit<Item> => {
    const sorted = drawn[i]!.slice().sort();
    const at = (p: number): number => sorted[Math.min(draws - 1, Math.floor(p * draws))]!;
    const evidence = evidenceStep(
      `merit for ${options.purpose} by ${scoring.id}`,
      row.values.filter((v) => v !== null).map((v) => v.evidence),
    );
    return {
      item: row.item,
      merit: new Quantity(central[i]!, "1", [], evidence),
      interval: [at(0.025), at(0.975)],
      grade: gradeOf(scoring, central[i]!),
      grades: scoring.grades.map(({ name }) => ({
        name,
        probability: drawn[i]!.reduce((n, merit) => n + (gradeOf(scoring, merit) === name ? 1 : 0), 0) / draws,
      })),
      probabilityPicked: picked[i]! / draws,
      parts: row.partsOf(row.values.map((v) => v?.value ?? null)),
    };
  });
  const unscored = rows
    .filter((row) => row.reason !== null)
    .map((row): Merit<Item> => ({
      item: row.item,
      merit: new Absent("1", row.reason!),
      interval: null,
      grade: null,
      grades: [],
      probabilityPicked: 0,
      parts: row.partsOf(row.values.map((v) => v?.value ?? null)),
    }));
  const probabilityOfPicks = scored.length === 0 ? 0 : sameSet / draws;
  const sorted = merits
    .map((merit, i) => ({ merit, central: central[i]! }))
    .sort((a, b) => b.central - a.central)
    .map(({ merit }) => merit);
  return {
    purpose: options.purpose,
    merits: [...sorted, ...unscored],
    picks: probabilityOfPicks >= 0.95 ? best.map((index) => scored[index]!.item) : null,
    probabilityOfPicks,
    seed: options.seed,
    draws,
  };
}

interface ScoredRow<Item> {
  readonly item: Item;
  readonly values: readonly (Quantity | null)[];
  /** Why there is no merit; null where there is. */
  readonly reason: string | null;
  meritOf(values: readonly (number | null)[]): number;
  partsOf(values: readonly (number | null)[]): Merit<Item>["parts"];
}

function scoreRow<Item>(
  item: Item,
  inputs: MeritInputs,
  characteristics: readonly string[],
  weights: Readonly<Record<string, number>>,
  scoring: ScoringMethod,
): ScoredRow<Item> {
  const values = characteristics.map((name) => {
    const measured = inputs[name];
    return measured !== undefined && isQuantity(measured) ? measured : null;
  });
  const missing = characteristics.filter((_, i) => values[i] === null);
  const blocking = missing.filter((name) => name !== "latency" || scoring.missingConnection === "not_scored");
  const why = (name: string): string => {
    const measured = inputs[name];
    return measured?.absent ? measured.reason : "not measured";
  };
  const zero = scoring.missingConnection === "zero";
  const total = characteristics.reduce((sum, name, i) => sum + (values[i] !== null || zero ? weights[name]! : 0), 0);
  const partMerit = (name: string, value: number | null): number | null =>
    value === null ? null : meritCurve(scoring.curves[name]!, value);
  return {
    item,
    values,
    reason:
      blocking.length > 0
        ? `no ${blocking[0]}: ${why(blocking[0]!)}`
        : total > 0
          ? null
          : "no weighted characteristic was measured",
    meritOf: (drawn) =>
      characteristics.reduce((sum, name, i) => sum + weights[name]! * (partMerit(name, drawn[i]!) ?? 0), 0) / total,
    partsOf: (drawn) =>
      characteristics.map((name, i) => ({
        characteristic: name,
        weight: weights[name]! / total,
        merit: partMerit(name, drawn[i]!),
      })),
  };
}

function gradeOf(scoring: ScoringMethod, merit: number): string {
  return (scoring.grades.find(({ from }) => merit >= from) ?? scoring.grades.at(-1)!).name;
}

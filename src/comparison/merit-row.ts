import { nearestName } from "../records/nearest.js";
import type { ScoringMethod } from "../records/archive.js";
import { isQuantity } from "../metrology/index.js";
import type { Measured, Quantity } from "../metrology/index.js";
import { meritFunction } from "./merit-curve.js";

/** What the merit of one item rests on: its results by the scoring method's names of characteristics. */
export type MeritInputs = Readonly<Record<string, Measured>>;

/** One characteristic's part in a merit. */
export interface MeritPart {
  readonly characteristic: string;
  /** Share of the whole weight, after the rule for a missing connection. */
  readonly weight: number;
  /** Null where it is missing. */
  readonly merit: number | null;
}

/** An item ready to be scored. */
export interface MeritRow {
  /** Values in the order of the weights; null where missing. */
  readonly values: readonly (Quantity | null)[];
  /** Why there is no merit, as a clause; null where there is one. */
  readonly reason: string | null;
  readonly meritOf: (values: readonly (number | null)[]) => number;
  readonly parts: readonly MeritPart[];
}

/**
 * Prepares one item for one purpose: the weighted mean of the merits of its characteristics. A missing connection (`latency`)
 * follows the method's rule: `renormalise` leaves its weight out, `zero` gives it no merit, `not_scored` gives the item none.
 * Any other missing characteristic leaves the item without a merit.
 *
 * @throws RangeError for a purpose or a curve that the method does not have, or a curve whose points do not rise
 */
export function meritRow(inputs: MeritInputs, scoring: ScoringMethod, purpose: string): MeritRow {
  const weights = weightsOf(scoring, purpose);
  const names = Object.keys(weights);
  const values = names.map((name) => {
    const measured = inputs[name];
    return measured !== undefined && isQuantity(measured) ? measured : null;
  });
  const missing = names.filter((_, i) => values[i] === null);
  const blocking = missing.find((name) => name !== "latency" || scoring.missingConnection === "not_scored");
  const countsAsZero = scoring.missingConnection === "zero";
  const total = names.reduce((sum, name, i) => sum + (values[i] !== null || countsAsZero ? weights[name]! : 0), 0);
  const curves = names.map((name) => meritFunction(scoring.curves[name]!));
  const shares = names.map((name) => weights[name]! / total);
  return {
    values,
    reason:
      blocking !== undefined
        ? `no ${spoken(blocking)}: ${reasonOf(inputs[blocking])}`
        : total > 0
          ? null
          : "no weighted characteristic was measured",
    meritOf: (drawn) => {
      let merit = 0;
      for (let i = 0; i < names.length; i++) {
        const value = drawn[i] ?? null;
        if (value !== null) merit += weights[names[i]!]! * curves[i]!(value);
      }
      return merit / total;
    },
    parts: names.map((characteristic, i) => ({
      characteristic,
      weight: values[i] !== null || countsAsZero ? shares[i]! : 0,
      merit: values[i] === null ? null : curves[i]!(values[i]!.value),
    })),
  };
}

function weightsOf(scoring: ScoringMethod, purpose: string): Readonly<Record<string, number>> {
  const weights = scoring.purposes[purpose];
  if (weights === undefined) {
    const known = Object.keys(scoring.purposes);
    const near = nearestName(purpose, known);
    const hint = near === undefined ? "" : `; did you mean ${near}?`;
    throw new RangeError(`${scoring.id} has no purpose "${purpose}"; it has ${known.join(", ")}${hint}`);
  }
  for (const name of Object.keys(weights)) {
    if (scoring.curves[name] === undefined)
      throw new RangeError(`${scoring.id} weighs ${name} but has no curve for it`);
  }
  return weights;
}

function reasonOf(measured: Measured | undefined): string {
  return measured?.absent ? measured.reason : "not measured";
}

function spoken(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

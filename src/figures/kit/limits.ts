import { decideConformity } from "../../metrology/decision.js";
import { evidenceStep } from "../../metrology/evidence.js";
import { Quantity } from "../../metrology/quantity.js";
import type { Reading } from "./entries.js";
import { counted, joinWords, sayStated } from "./words.js";

/** A stated bound; a limit of the archive or a quantity will do. */
export interface Bound {
  readonly value: number;
  readonly symbol: string;
}

/** A limit as a figure draws it; `Limit` of the archive has this shape. */
export interface FigureLimit {
  readonly min?: Bound;
  readonly max?: Bound;
  readonly nominal?: Bound;
  /** `typical` is drawn and never judged; default `limit`. */
  readonly force?: "limit" | "typical";
  /** A limit that binds the mean is drawn and not judged item by item; default `each_key`. */
  readonly binds?: "each_key" | "mean";
  readonly source?: string;
}

/** How a value stands to the limits that bind it; `not_judged` where none does. */
export type Standing = "inside" | "outside" | "undecided" | "not_judged";

/** The limits of a figure as a list. @throws RangeError on a limit without bounds, or in another unit of measure */
export function limitList(
  limits: FigureLimit | readonly FigureLimit[] | undefined,
  symbol: string,
  where: string,
): readonly FigureLimit[] {
  const list =
    limits === undefined ? [] : Array.isArray(limits) ? (limits as readonly FigureLimit[]) : [limits as FigureLimit];
  for (const limit of list) {
    const bounds = boundsOf(limit);
    if (bounds.length === 0) throw new RangeError(`a limit of the ${where} has none of min, max, nominal`);
    const odd = bounds.find((bound) => bound.symbol !== symbol);
    if (odd !== undefined) {
      throw new RangeError(`the ${where} is in ${symbol}, but a limit is in ${odd.symbol}: convert one of them`);
    }
  }
  return list;
}

/** All stated bounds of a limit. */
export function boundsOf(limit: FigureLimit): readonly Bound[] {
  return [limit.min, limit.max, limit.nominal].filter((bound) => bound !== undefined);
}

/** Whether a limit binds each single item. */
export function isJudged(limit: FigureLimit): boolean {
  return limit.force !== "typical" && limit.binds !== "mean" && (limit.min !== undefined || limit.max !== undefined);
}

/** How a value stands to one limit, by the guard band w = U of `decideConformity`. */
export function standingTo(quantity: Quantity, limit: FigureLimit): Standing {
  if (!isJudged(limit)) return "not_judged";
  const { min, max } = limit;
  const { outcome } = decideConformity(quantity, {
    ...(min === undefined ? {} : { min: exactly(min) }),
    ...(max === undefined ? {} : { max: exactly(max) }),
  });
  return outcome === "yes" ? "inside" : outcome === "no" ? "outside" : "undecided";
}

/** How a value stands to all limits together: outside any is outside, else undecided by any is undecided. */
export function standingToAll(quantity: Quantity, limits: readonly FigureLimit[]): Standing {
  const standings = limits.map((limit) => standingTo(quantity, limit));
  return (["outside", "undecided", "inside"] as const).find((standing) => standings.includes(standing)) ?? "not_judged";
}

/**
 * How many readings lie inside one limit, and which do not: "6 of 8 keys lie inside 35 cN to 55 cN, 1 outside (KeyP),
 * 1 undecided (KeyZ)". Inside and outside mean by at least the reading's own uncertainty.
 */
export function sayStandings(readings: readonly Reading[], limit: FigureLimit, noun: string): string {
  const labels = (standing: Standing): readonly string[] =>
    readings.filter((reading) => standingTo(reading.measured, limit) === standing).map((reading) => reading.label);
  const [inside, outside, undecided] = [labels("inside"), labels("outside"), labels("undecided")];
  if (outside.length + undecided.length === 0) {
    const whole = readings.length === 1 ? `the ${noun} lies` : `all ${counted(readings.length, noun)} lie`;
    return `${whole} inside ${sayLimit(limit)} by at least ${readings.length === 1 ? "its" : "their"} uncertainty`;
  }
  const others = [
    outside.length === 0 ? "" : `${outside.length} outside (${joinWords(outside)})`,
    undecided.length === 0 ? "" : `${undecided.length} undecided (${joinWords(undecided)})`,
  ].filter((part) => part !== "");
  return `${inside.length} of ${counted(readings.length, noun)} ${inside.length === 1 ? "lies" : "lie"} inside ${sayLimit(limit)}, ${others.join(", ")}`;
}

/** Whether a limit lies equally far on both sides of zero, as one on a difference does. */
export function isSymmetric({ min, max }: FigureLimit): boolean {
  return min !== undefined && max !== undefined && max.value > 0 && min.value === -max.value;
}

/** The limit in words: "35 cN to 55 cN", "at most 2 mm", "± 3 cN". */
export function sayLimit(limit: FigureLimit): string {
  const { min, max, nominal } = limit;
  if (isSymmetric(limit)) return `±\u00a0${sayBound(max!)}`;
  if (min !== undefined && max !== undefined) return `${sayBound(min)} to ${sayBound(max)}`;
  if (min !== undefined) return `at least ${sayBound(min)}`;
  return max !== undefined ? `at most ${sayBound(max)}` : `nominal ${sayBound(nominal!)}`;
}

function sayBound(bound: Bound): string {
  return sayStated(bound.value, bound.symbol);
}

function exactly(bound: Bound): Quantity {
  return new Quantity(bound.value, bound.symbol, [], evidenceStep("limit", []));
}

import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import tCdf from "@stdlib/stats-base-dists-t-cdf";
import { expand, wholeDof } from "./expanded.js";
import type { Count, Measured, Quantity } from "./quantity.js";
import { isQuantity } from "./quantity.js";
import type { Verdict } from "./verdict.js";

/** Tolerance limits in the symbol of what they bind; at least one must be there. */
export interface ToleranceLimits {
  readonly min?: Quantity;
  readonly max?: Quantity;
}

/** A verdict on one quantity, with the numbers of its decision rule. */
export interface ConformityVerdict extends Verdict {
  readonly family: "conformity";
  /** w = U at 95 %; null where there is no quantity. */
  readonly guardBand: number | null;
  /** Probability that the true value lies within the limits, given the result; null where there is no quantity. */
  readonly probability: number | null;
  /** Probability that a stated yes or no is wrong (specific risk); null where undecided. */
  readonly wrongCall: number | null;
}

const ruleText =
  "guard band w = U (95 %): conforms inside the limits by at least w, does not conform outside them by at least w, " +
  "undecided between; specific risk nominally below 2.5 % a limit (ILAC-G8:09/2019, 4.2.3)";

/**
 * Decides conformity with a guard band w = U, not binary (ILAC-G8:09/2019, 4.2.3; JCGM 106:2012, 8.3). An absent quantity
 * is undecided, with its reason. The conformance probability is that of JCGM 106, 7.4, from Student's distribution of the
 * effective degrees of freedom.
 *
 * @throws RangeError without a limit, with min above max, or with limits in another symbol
 */
export function decideConformity(measured: Measured, limits: ToleranceLimits): ConformityVerdict {
  const { min, max } = limits;
  if (min === undefined && max === undefined) throw new RangeError("a decision needs at least one limit");
  if (min !== undefined && max !== undefined && min.value > max.value) {
    throw new RangeError(`the lower limit ${min.value} is above the upper limit ${max.value}`);
  }
  for (const limit of [min, max]) {
    if (limit !== undefined && limit.symbol !== measured.symbol) {
      throw new RangeError(
        `cannot compare ${measured.symbol} with a limit in ${limit.symbol}: convert one of them first`,
      );
    }
  }
  const cites: Measured[] = [measured, ...[min, max].filter((limit) => limit !== undefined)];
  const head = { kind: "verdict", family: "conformity", rule: ruleText, cites } as const;
  if (measured.absent) {
    const statement = `no value to judge: ${measured.reason}`;
    return { ...head, outcome: "undecided", statement, guardBand: null, probability: null, wrongCall: null };
  }
  const { U, dof } = expand(measured);
  const below = min === undefined ? Infinity : measured.value - min.value;
  const above = max === undefined ? Infinity : max.value - measured.value;
  const room = Math.min(below, above);
  const probability = conformance(measured.value, measured.u, dof, min?.value, max?.value);
  const range = describeLimits(limits, measured.symbol);
  if (room >= U) {
    const statement = `lies inside ${range} by at least its uncertainty`;
    return { ...head, outcome: "yes", statement, guardBand: U, probability, wrongCall: 1 - probability };
  }
  if (-room >= U) {
    const statement = `lies outside ${range} by at least its uncertainty`;
    return { ...head, outcome: "no", statement, guardBand: U, probability, wrongCall: probability };
  }
  const statement = `lies nearer to ${range} than its uncertainty can decide`;
  return { ...head, outcome: "undecided", statement, guardBand: U, probability, wrongCall: null };
}

const joinedRule = "all must conform, each by its own uncertainty; ";

/**
 * Joins verdicts of a unit's keys, or of its limits: yes only if all are yes, no if any is no, else undecided (measurement
 * model, section 3). It cites what each of them judged; of verdicts that were joined before, all that they cite. Without
 * verdicts it is undecided.
 *
 * @param subject what is judged, in the plural: "keys", "limits"
 * @param of how many there are in all, where not each was measured
 */
export function decideAll(verdicts: readonly Verdict[], subject: string, of: Count | null = null): Verdict {
  const tally = (outcome: Verdict["outcome"]): number => verdicts.filter((v) => v.outcome === outcome).length;
  const isJoined = (verdict: Verdict): boolean => verdict.rule.startsWith(joinedRule);
  const outcome =
    verdicts.length === 0
      ? "undecided"
      : tally("no") > 0
        ? "no"
        : tally("yes") === verdicts.length
          ? "yes"
          : "undecided";
  const judged =
    of === null ? `${verdicts.length} ${subject} judged` : `${verdicts.length} of ${of.count} ${subject} measured`;
  const parts = [
    ...(tally("yes") > 0 ? [`${tally("yes")} conform${tally("yes") === 1 ? "s" : ""}`] : []),
    ...(tally("no") > 0 ? [`${tally("no")} do${tally("no") === 1 ? "es" : ""} not`] : []),
    ...(tally("undecided") > 0 ? [`${tally("undecided")} undecided`] : []),
  ];
  const statement = verdicts.length === 0 ? `no ${subject} was measured` : `${judged}: ${parts.join(", ")}`;
  const inner = verdicts[0]?.rule ?? ruleText;
  const cites = verdicts.flatMap((v) => {
    const quantities = v.cites.filter((cited) => !("count" in cited) && isQuantity(cited));
    return isJoined(v) ? quantities : quantities.slice(0, 1);
  });
  return {
    kind: "verdict",
    family: "conformity",
    outcome,
    statement,
    rule: inner.startsWith(joinedRule) ? inner : joinedRule + inner,
    cites: [...new Set(cites)],
  };
}

/** P(min <= Y <= max) for Y = value + u T, T Student's with dof degrees of freedom; for u = 0, 0 or 1. */
function conformance(value: number, u: number, dof: number, min = -Infinity, max = Infinity): number {
  if (u === 0) return value >= min && value <= max ? 1 : 0;
  const cdf = (x: number): number => {
    if (x === -Infinity) return 0;
    if (x === Infinity) return 1;
    return Number.isFinite(dof) ? tCdf(x, wholeDof(dof)) : normalCdf(x, 0, 1);
  };
  return cdf((max - value) / u) - cdf((min - value) / u);
}

function describeLimits({ min, max }: ToleranceLimits, symbol: string): string {
  const unit = symbol === "1" ? "" : ` ${symbol}`;
  if (min !== undefined && max !== undefined) return `the limits ${min.value}${unit} to ${max.value}${unit}`;
  return min !== undefined ? `the lower limit ${min.value}${unit}` : `the upper limit ${max!.value}${unit}`;
}

import { checkOptions } from "../../figures/kit/options.js";
import { expand } from "../../metrology/expanded.js";
import type { Measured } from "../../metrology/quantity.js";
import { Count, Quantity } from "../../metrology/quantity.js";
import type { Verdict } from "../../metrology/verdict.js";

/** A bound that a number is held against: a bare number in the symbol of what is judged, a quantity or a count. */
export type Bound = number | Measured | Count;

export interface ThresholdOptions {
  /** What is counted, in the plural, for the sentence: "sessions outside a calibration". */
  readonly of?: string;
}

const countRule = "a count is exact, so the comparison is";
const quantityRule =
  "guard band w = U (95 %): met beyond the bound by at least w, not met short of it by at least w, undecided between";

/**
 * Holds a number against a bound: `sign` 1 for "at least", -1 for "at most". Counts are exact. A quantity is decided with
 * a guard band of its expanded uncertainty; where the bound is a quantity too, with that of the difference by variance
 * sum, shared sources first. An absent one is undecided, with its reason.
 *
 * @throws RangeError where the bound is not finite or has another symbol
 */
export function judge(value: Measured | Count, bound: Bound, sign: 1 | -1, options: ThresholdOptions = {}): Verdict {
  checkOptions(options, ["of"], sign === 1 ? "atLeast" : "atMost");
  const words = sign === 1 ? "at least" : "at most";
  const cites = bound instanceof Object ? [value, bound] : [value];
  const say = (outcome: Verdict["outcome"], statement: string, rule: string): Verdict => {
    return { kind: "verdict", family: "criterion", outcome, statement, rule, cites };
  };
  if (typeof bound === "number" && !Number.isFinite(bound)) throw new RangeError(`the bound is ${bound}`);
  for (const each of cites) {
    if (!(each instanceof Count) && each.absent) return say("undecided", `no value to judge: ${each.reason}`, quantityRule);
  }
  if (value instanceof Count) {
    const limit = bound instanceof Count ? bound.count : typeof bound === "number" ? bound : null;
    if (limit === null) throw new RangeError("a count is held against a count or a whole number");
    const met = sign * (value.count - limit) >= 0;
    return say(met ? "yes" : "no", `${value.count} against ${words} ${limit}${options.of === undefined ? "" : ` ${options.of}`}`, countRule);
  }
  if (bound instanceof Count) throw new RangeError("a quantity is held against a quantity or a bare number, not a count");
  if (!(value instanceof Quantity)) throw new RangeError("only a quantity or a count can be judged");
  const limit = typeof bound === "number" ? new Quantity(bound, value.symbol, [], value.evidence) : (bound as Quantity);
  if (limit.symbol !== value.symbol) {
    throw new RangeError(`cannot hold ${value.symbol} against ${limit.symbol}: convert one of them first`);
  }
  const minus = limit.components.map(({ source, contribution }) => ({ source, contribution: -contribution }));
  const gap = new Quantity(value.value - limit.value, value.symbol, [...value.components, ...minus], value.evidence);
  const room = sign * gap.value;
  const { U } = expand(gap);
  const unit = value.symbol === "1" ? "" : ` ${value.symbol}`;
  const outcome = room >= U ? "yes" : -room >= U ? "no" : "undecided";
  const how = outcome === "undecided" ? "nearer to it than the uncertainty can decide" : "by at least its uncertainty";
  const side = outcome === "yes" ? words : outcome === "no" ? `not ${words}` : `against ${words}`;
  return say(outcome, `${side} ${limit.value}${unit}, ${how}`, quantityRule);
}

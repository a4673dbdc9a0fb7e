import { evidenceStep } from "./evidence.js";
import type { Measured } from "./quantity.js";
import { Absent, Quantity, isQuantity } from "./quantity.js";
import type { Component } from "./source.js";

/** The numbers of a tuple of quantities, position by position. */
export type Values<Q extends readonly Measured[]> = { readonly [K in keyof Q]: number };

export interface DeriveOptions {
  /** What was done, for the evidence; default "computed from n quantities". */
  readonly operation?: string;
  /** Further components in the result's symbol, such as a model's own uncertainty. */
  readonly components?: readonly Component[];
}

/**
 * Computes a new quantity from others, by the law of propagation (JCGM 100:2008, 5.1.2 and 5.2.2): every component of
 * every input is carried with its sensitivity, so that shared sources cancel or add. Sensitivities are central differences
 * at two steps, extrapolated to step 0 (Richardson); the steps are a fraction of the standard uncertainty (5.1.3, note 2).
 *
 * @param inputs quantities or absences; one absence makes the result absent, with that reason
 * @param formula numbers in the inputs' own symbols to a number in `symbol`
 * @param symbol unit of measure of the result ("1" for a ratio)
 * @throws RangeError where the formula gives no finite number
 */
export function derive<const Q extends readonly Measured[], S extends string>(
  inputs: Q,
  formula: (values: Values<Q>) => number,
  symbol: S,
  options: DeriveOptions = {},
): Measured<S> {
  const evidence = evidenceStep(
    options.operation ?? `computed from ${inputs.length} quantities`,
    inputs.map((q) => q.evidence),
  );
  const missing = inputs.find((q) => q.absent);
  if (missing?.absent) return new Absent(symbol, missing.reason, evidence);
  const quantities = inputs.filter(isQuantity);
  const values = quantities.map((q) => q.value);
  const evaluate = (at: readonly number[]): number => formula(at as unknown as Values<Q>);
  const value = evaluate(values);
  if (!Number.isFinite(value)) {
    throw new RangeError(`the formula gives ${value} for (${values.join(", ")}); guard the case and say what it means`);
  }
  const components = quantities.flatMap((q, i) => {
    if (q.components.length === 0) return [];
    const sensitivity = slopeAt((at) => evaluate(values.map((v, j) => (j === i ? at : v))), q.value, q.u);
    return q.components.map((c) => ({ source: c.source, contribution: sensitivity * c.contribution }));
  });
  return new Quantity(value, symbol, [...components, ...(options.components ?? [])], evidence);
}

/** Derivative by central differences at h and h/2, extrapolated; h is a quarter of u, but never lost to rounding. */
export function slopeAt(f: (x: number) => number, x: number, u: number): number {
  const h = Math.max(u / 4, Math.abs(x) * 1e-4, 1e-9);
  const central = (step: number): number => (f(x + step) - f(x - step)) / (2 * step);
  return (4 * central(h / 2) - central(h)) / 3;
}

/**
 * A weighted sum of quantities of one unit of measure: exact sensitivities, shared sources added signed.
 * @throws RangeError where the symbols differ or the lengths do not match
 */
export function linear<S extends string>(
  inputs: readonly Quantity<S>[],
  weights: readonly number[],
  operation: string,
): Quantity<S> {
  const first = inputs[0];
  if (first === undefined) throw new RangeError("a sum needs at least one quantity");
  if (inputs.length !== weights.length) {
    throw new RangeError(`${inputs.length} quantities but ${weights.length} weights`);
  }
  const odd = inputs.find((q) => q.symbol !== first.symbol);
  if (odd) throw new RangeError(`cannot add ${first.symbol} and ${odd.symbol}: convert one of them first`);
  let value = 0;
  const components: Component[] = [];
  inputs.forEach((q, i) => {
    const weight = weights[i]!;
    value += weight * q.value;
    for (const c of q.components) components.push({ source: c.source, contribution: weight * c.contribution });
  });
  return new Quantity(
    value,
    first.symbol,
    components,
    evidenceStep(
      operation,
      inputs.map((q) => q.evidence),
    ),
  );
}

/** What adding two gives: a quantity where both are one, else something that may be absent. */
export type Combined<A extends Measured, B extends Measured> = [A["absent"], B["absent"]] extends [false, false]
  ? Quantity<A["symbol"]>
  : Measured<A["symbol"]>;

/**
 * a + b of one unit of measure; another unit is refused by the compiler, and at run time with a RangeError. Where one is
 * absent, so is the sum, with the reason of the first that is.
 */
export function sum<A extends Measured, B extends Measured<A["symbol"]>>(a: A, b: B): Combined<A, B> {
  return combine(a, b, 1, "sum") as Combined<A, B>;
}

/** a - b of one unit of measure; shared sources cancel. Where one is absent, so is the difference, as with `sum`. */
export function difference<A extends Measured, B extends Measured<A["symbol"]>>(a: A, b: B): Combined<A, B> {
  return combine(a, b, -1, "difference") as Combined<A, B>;
}

function combine(a: Measured, b: Measured, weight: 1 | -1, operation: string): Measured {
  if (isQuantity(a) && isQuantity(b)) return linear([a, b], [1, weight], operation);
  if (a.symbol !== b.symbol) throw new RangeError(`cannot add ${a.symbol} and ${b.symbol}: convert one of them first`);
  const reason = a.absent ? a.reason : b.absent ? b.reason : "";
  return new Absent(a.symbol, reason, evidenceStep(operation, [a.evidence, b.evidence]));
}

/** Covariance of two quantities: the sum over shared sources of the products of their contributions (GUM F.1.2.3). */
export function covariance(a: Quantity, b: Quantity): number {
  const ofB = new Map(b.components.map((c) => [c.source.id, c.contribution]));
  return a.components.reduce((total, c) => total + c.contribution * (ofB.get(c.source.id) ?? 0), 0);
}

/** How sure a part of a proposal is: `unsure` must be looked at by a person, `likely` should be. */
export type Sureness = "sure" | "likely" | "unsure";

/** One part of a proposed columns file: what was chosen, how sure that is, and why. */
export interface Decision {
  /** Dotted path in the columns file: `layout.decimal`, `force.unit`. */
  readonly part: string;
  readonly sureness: Sureness;
  readonly reason: string;
}

/** The less sure of two. */
export function lessSure(a: Sureness, b: Sureness): Sureness {
  const order: readonly Sureness[] = ["sure", "likely", "unsure"];
  return order[Math.max(order.indexOf(a), order.indexOf(b))]!;
}

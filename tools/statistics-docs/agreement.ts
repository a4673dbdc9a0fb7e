import type { Check } from "../../tests/statistics/checks/check.js";
import { digitsAgreed } from "../../tests/statistics/checks/check.js";

/** What the checks of one kernel of one kind found. */
export interface Agreement {
  readonly kernel: string;
  readonly kind: "published" | "computed";
  readonly sources: readonly string[];
  /** How many numbers were compared. */
  readonly values: number;
  /** Whole digits in which every number agrees. */
  readonly digits: number;
}

/** Runs all checks and sums them up by kernel and kind; throws where one disagrees. */
export function measureAgreement(checks: readonly Check[]): readonly Agreement[] {
  const found = new Map<string, { check: Check; sources: Set<string>; values: number; digits: number }>();
  for (const check of checks) {
    const key = `${check.procedure} ${check.kind}`;
    const known = found.get(key) ?? { check, sources: new Set<string>(), values: 0, digits: 15 };
    for (const { name, got, want, tolerance } of check.compare()) {
      if (!(Math.abs(got - want) <= tolerance)) throw new Error(`${name} is ${want} (± ${tolerance}), got ${got}`);
      known.values++;
      // An exact 0 that is reached within its tolerance says nothing about digits.
      if (want !== 0) known.digits = Math.min(known.digits, digitsAgreed(got, want));
    }
    known.sources.add(check.source);
    found.set(key, known);
  }
  return [...found.values()].map(({ check, sources, values, digits }) => ({
    kernel: check.procedure,
    kind: check.kind,
    sources: [...sources],
    values,
    digits: Math.floor(digits),
  }));
}

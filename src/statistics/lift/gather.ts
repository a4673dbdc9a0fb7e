import type { EvidenceStep } from "../../metrology/evidence.js";
import { evidenceStep } from "../../metrology/evidence.js";
import type { Measured, Quantity } from "../../metrology/quantity.js";
import { Absent, Count } from "../../metrology/quantity.js";
import type { Shape } from "./shape.js";

/** Rows of measured values of which every one is there, and what was left out. */
export interface Gathered {
  /** Positions in the input of the rows that are used. */
  readonly used: readonly number[];
  /** `columns[c][i]`: value c of the i-th used row. */
  readonly columns: readonly (readonly Quantity[])[];
  /** Symbol of each column. */
  readonly symbols: readonly string[];
  readonly evidence: EvidenceStep;
}

/**
 * Sorts out the rows in which a value is absent: they are left out, and the evidence says how many and why.
 * @throws RangeError on no rows at all (no symbol is known then), and where the symbols of a column differ
 */
export function gather(rows: readonly (readonly Measured[])[], what: string, operation?: string): Gathered {
  const first = rows[0];
  if (first === undefined) throw new RangeError(`${what} needs at least one item; the list is empty`);
  const symbols = first.map((measured) => measured.symbol);
  rows.forEach((row, i) =>
    row.forEach((measured, c) => {
      if (measured.symbol === symbols[c]) return;
      throw new RangeError(
        `${what}: item 1 is in ${symbols[c]} but item ${i + 1} in ${measured.symbol}; convert one of them first`,
      );
    }),
  );
  const used: number[] = [];
  const reasons = new Map<string, number>();
  rows.forEach((row, i) => {
    const missing = row.find((measured) => measured.absent);
    if (missing?.absent) reasons.set(missing.reason, (reasons.get(missing.reason) ?? 0) + 1);
    else used.push(i);
  });
  const columns = symbols.map((_, c) => used.map((i) => rows[i]![c] as Quantity));
  const all = rows.flat();
  const inputs = used.length > 0 ? columns.flat() : all;
  const note =
    used.length === rows.length
      ? undefined
      : `${rows.length - used.length} of ${rows.length} left out: ${[...reasons].map(([reason, n]) => `${reason} (${n})`).join("; ")}`;
  const evidence = evidenceStep(
    operation ?? `${what} of ${used.length} ${first.length > 1 ? "pairs" : used.length === 1 ? "value" : "values"}`,
    inputs.map((measured) => measured.evidence),
    note,
  );
  return { used, columns, symbols, evidence };
}

/** A result of the stated shape in which everything is absent for one reason. */
export function absentOf(
  shape: Shape,
  symbolOf: (leaf: string) => string,
  reason: string,
  evidence: EvidenceStep,
): unknown {
  if (Array.isArray(shape)) return new Absent("1", reason, evidence);
  if (typeof shape !== "string") {
    return Object.freeze(
      Object.fromEntries(
        Object.entries(shape as Record<string, Shape>).map(([name, inner]) => [
          name,
          absentOf(inner, symbolOf, reason, evidence),
        ]),
      ),
    );
  }
  if (shape === "count") return new Count(0, evidence);
  if (shape === "text") return reason;
  if (shape === "flag" || shape === "plain" || shape === "position" || shape === "statistic")
    return new Absent("1", reason, evidence);
  return new Absent(symbolOf(shape), reason, evidence);
}
